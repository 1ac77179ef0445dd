//! CVODE: variable-order BDF with Newton iteration on the states alone, exact slopes, root-finding for thermostats.

use crate::carried::{Integrator, Reached, Work};
use crate::given::{Context, Direct, Inside, Vector, held, numbers, write_sparse};
use crate::problem::{Field, Hold, Switches, crossings};
use crate::sundials::*;
use coldsoak::balance::Balance;
use std::ffi::{c_int, c_long};
use std::marker::PhantomData;

/// How CVODE solves its linear systems.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Solver {
    /// A full matrix.
    Dense,
    /// A sparse one, by KLU.
    Klu,
}

extern "C" fn rhs(time_s: f64, y: Handle, out: Handle, data: Handle) -> c_int {
    // SAFETY: `data` is the `Inside` set below, which only callbacks touch while CVODE runs; y and out are distinct serial
    // vectors of all states.
    let (inside, y, out) = unsafe {
        let inside = &mut *data.cast::<Inside>();
        let n = inside.field.net.index.states();
        (inside, numbers(y, n), numbers(out, n))
    };
    // A positive answer lets CVODE try a shorter step.
    c_int::from(inside.field.rates(time_s, y, out).is_err())
}

extern "C" fn root(_: f64, y: Handle, out: *mut f64, data: Handle) -> c_int {
    // SAFETY: as above; CVODE made `out` as long as the number of roots, the number of heaters.
    let (inside, y, out) = unsafe {
        let inside = &mut *data.cast::<Inside>();
        let net = inside.field.net;
        let out = std::slice::from_raw_parts_mut(out, net.heaters.len());
        (inside, numbers(y, net.index.states()), out)
    };
    inside.switches.distances(y, out);
    0
}

extern "C" fn dense(
    t: f64,
    y: Handle,
    _: Handle,
    matrix: Handle,
    data: Handle,
    _: Handle,
    _: Handle,
    _: Handle,
) -> c_int {
    // SAFETY: as above; the matrix is the square dense one made below, by columns.
    let (inside, y, full) = unsafe {
        let inside = &mut *data.cast::<Inside>();
        let n = inside.field.net.index.states();
        let full = std::slice::from_raw_parts_mut(SUNDenseMatrix_Data(matrix), n * n);
        (inside, numbers(y, n), full)
    };
    if !inside.field.slopes_alone(t, y) {
        return 1;
    }
    // CVODE zeroes the matrix before it asks.
    let (n, alone) = (y.len(), &inside.field.slopes.alone);
    for column in 0..n {
        for slot in alone.starts[column]..alone.starts[column + 1] {
            full[column * n + alone.rows[slot]] = alone.values[slot];
        }
    }
    0
}

extern "C" fn sparse(
    t: f64,
    y: Handle,
    _: Handle,
    matrix: Handle,
    data: Handle,
    _: Handle,
    _: Handle,
    _: Handle,
) -> c_int {
    // SAFETY: as above; the matrix is the sparse one made below from the pattern of the same slopes.
    unsafe {
        let inside = &mut *data.cast::<Inside>();
        let y = numbers(y, inside.field.net.index.states());
        if !inside.field.slopes_alone(t, y) {
            return 1;
        }
        write_sparse(matrix, &inside.field.slopes.alone);
    }
    0
}

/// CVODE under way. Fields are dropped in this order, the context last.
pub struct Cvode<'n> {
    memory: Handle,
    direct: Direct,
    vector: Vector,
    // Held by CVODE.
    _absolute: Vector,
    inside: *mut Inside<'n>,
    work: Work,
    _context: Context,
    _owns: PhantomData<Inside<'n>>,
}

impl<'n> Cvode<'n> {
    /// At the beginning of the night.
    pub fn new(field: Field<'n>, hold: Hold, solver: Solver) -> Self {
        let net = field.net;
        let context = Context::new();
        let vector = Vector::of(&net.initial, context.0);
        let absolute = Vector::of(&hold.absolute(net), context.0);
        let direct = match solver {
            Solver::Dense => Direct::dense(&vector, context.0),
            Solver::Klu => Direct::sparse(&vector, &field.slopes.alone, context.0),
        };
        let switches = Switches::new(net);
        let inside = Box::into_raw(Box::new(Inside { field, switches }));
        // SAFETY: all handles are live and live as long as the memory; `inside` is freed after it.
        let memory = unsafe {
            let memory = CVodeCreate(BDF, context.0);
            assert!(!memory.is_null(), "CVODE gives no memory");
            let jac = if solver == Solver::Dense {
                dense
            } else {
                sparse
            };
            let answers = [
                CVodeInit(memory, rhs, 0.0, vector.handle),
                CVodeSetUserData(memory, inside.cast()),
                CVodeSVtolerances(memory, hold.relative(), absolute.handle),
                CVodeSetMaxNumSteps(memory, 10_000_000),
                CVodeSetLinearSolver(memory, direct.solver, direct.matrix),
                CVodeSetJacFn(memory, jac),
                CVodeRootInit(memory, crossings(net), root),
            ];
            assert!(
                answers.iter().all(|&a| a == 0),
                "CVODE refuses: {answers:?}"
            );
            memory
        };
        Self {
            memory,
            direct,
            vector,
            _absolute: absolute,
            inside,
            work: Work::default(),
            _context: context,
            _owns: PhantomData,
        }
    }

    /// Counts since the last beginning, which starts them anew.
    fn count(&mut self) {
        let (mut steps, mut setups): (c_long, c_long) = (0, 0);
        // SAFETY: live memory, pointers to our own numbers.
        unsafe {
            CVodeGetNumSteps(self.memory, &raw mut steps);
            CVodeGetNumLinSolvSetups(self.memory, &raw mut setups);
        }
        self.work.steps += steps as usize;
        self.work.factorisations += setups as usize;
    }
}

impl<'n> Integrator<'n> for Cvode<'n> {
    fn given<R>(&mut self, work: impl FnOnce(&mut Balance<'n>, &mut Switches<'n>) -> R) -> R {
        // SAFETY: CVODE is not running, and `inside` is ours.
        let inside = unsafe { &mut *self.inside };
        inside.field.switched();
        work(&mut inside.field.balance, &mut inside.switches)
    }
    fn restart(&mut self, time_s: f64) {
        self.count();
        // SAFETY: live handles.
        let answer = unsafe { CVodeReInit(self.memory, time_s, self.vector.handle) };
        assert!(answer == 0, "CVODE does not begin anew: {answer}");
    }
    fn stop_at(&mut self, stop_s: f64) {
        // SAFETY: live memory.
        unsafe { CVodeSetStopTime(self.memory, stop_s) };
    }
    fn advance(&mut self, to_s: f64) -> Result<Reached, String> {
        let mut reached = 0.0;
        // SAFETY: live handles; callbacks alone touch `inside` meanwhile.
        let answer = unsafe {
            CVode(
                self.memory,
                to_s,
                self.vector.handle,
                &raw mut reached,
                NORMAL,
            )
        };
        if held(answer, "CVode")? != ROOT_RETURN {
            return Ok(Reached::There);
        }
        let heaters = self.given(|balance, _| balance.network().heaters.len());
        let mut found = vec![0; heaters];
        // SAFETY: as many roots as heaters.
        unsafe { CVodeGetRootInfo(self.memory, found.as_mut_ptr()) };
        Ok(Reached::Crossing(
            reached,
            (0..heaters).filter(|&h| found[h] != 0).collect(),
        ))
    }
    fn states(&self) -> Vec<f64> {
        self.vector.numbers().to_vec()
    }
    fn work(&mut self) -> Work {
        self.count();
        // SAFETY: CVODE is not running; the counts are only read.
        let field = unsafe { &(*self.inside).field };
        let (rates, jacobians) = (field.balance.evaluations, field.jacobians);
        Work {
            rates,
            jacobians,
            ..self.work
        }
    }
}

impl Drop for Cvode<'_> {
    fn drop(&mut self) {
        debug_assert!(!self.direct.matrix.is_null());
        // SAFETY: the memory is freed before anything it refers to; `inside` came from a box and is given back once.
        unsafe {
            CVodeFree(&raw mut self.memory);
            drop(Box::from_raw(self.inside));
        }
    }
}
