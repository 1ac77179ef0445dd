//! IDA: variable-order BDF on states and auxiliary unknowns together, a system of differential and algebraic equations of
//! index one. It spares the search for pressures in every evaluation, as coldsoak's own stages do, and its matrix is as
//! sparse as coldsoak's. KLU factors it.

use crate::carried::{Integrator, Reached, Work};
use crate::given::{Context, Direct, Vector, held, numbers, write_sparse};
use crate::open::Open;
use crate::problem::{Hold, Switches, crossings};
use crate::sundials::*;
use coldsoak::balance::Balance;
use std::ffi::{c_int, c_long};
use std::marker::PhantomData;

/// The absolute weight of a pressure at a tolerance of one, Pa. Pressures are left out of the error test; the weight says
/// when Newton's iteration has them. A pocket half a metre tall and a kelvin warmer draws some 0.02 Pa.
const PRESSURE_PA: f64 = 0.02;

/// The same of other auxiliaries, in their own units: they follow from what is weighed.
const UNWEIGHED: f64 = 1e9;

/// What callbacks work on.
struct Inside<'n> {
    open: Open<'n>,
    switches: Switches<'n>,
}

extern "C" fn residual(time_s: f64, y: Handle, yp: Handle, out: Handle, data: Handle) -> c_int {
    // SAFETY: `data` is the `Inside` set below, which only callbacks touch while IDA runs; the three are distinct serial
    // vectors of all unknowns.
    let (inside, y, yp, out) = unsafe {
        let inside = &mut *data.cast::<Inside>();
        let n = inside.open.net.index.unknowns();
        (inside, numbers(y, n), numbers(yp, n), numbers(out, n))
    };
    inside.open.residual(time_s, y, out);
    let states = inside.open.net.index.states();
    for (out, rate) in out[..states].iter_mut().zip(&*yp) {
        *out -= rate;
    }
    c_int::from(out.iter().any(|v| !v.is_finite()))
}

extern "C" fn root(_: f64, y: Handle, _: Handle, out: *mut f64, data: Handle) -> c_int {
    // SAFETY: as above; IDA made `out` as long as the number of heaters.
    let (inside, y, out) = unsafe {
        let inside = &mut *data.cast::<Inside>();
        let net = inside.open.net;
        let out = std::slice::from_raw_parts_mut(out, net.heaters.len());
        (inside, numbers(y, net.index.states()), out)
    };
    inside.switches.distances(y, out);
    0
}

extern "C" fn jac(
    t: f64,
    cj: f64,
    y: Handle,
    _: Handle,
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
        let y = numbers(y, inside.open.net.index.unknowns());
        let open = &mut inside.open;
        open.slopes(t, y);
        for &slot in &open.diagonals {
            open.matrix.values[slot] -= cj;
        }
        write_sparse(matrix, &open.matrix);
    }
    0
}

/// IDA under way. Fields are dropped in this order, the context last.
pub struct Ida<'n> {
    memory: Handle,
    direct: Direct,
    vector: Vector,
    slope: Vector,
    // Held by IDA.
    _held: [Vector; 2],
    inside: *mut Inside<'n>,
    work: Work,
    _context: Context,
    _owns: PhantomData<Inside<'n>>,
}

impl<'n> Ida<'n> {
    /// At the beginning of the night.
    pub fn new(open: Open<'n>, hold: Hold) -> Self {
        let net = open.net;
        let all = net.index.unknowns();
        let states = net.index.states();
        let context = Context::new();
        let mut begin = net.initial.clone();
        begin.resize(all, 0.0);
        let vector = Vector::of(&begin, context.0);
        let slope = Vector::of(&vec![0.0; all], context.0);
        let mut weights = hold.absolute(net);
        weights.resize(all, UNWEIGHED);
        for pocket in &net.pockets {
            weights[pocket.pressure] = hold.tolerance * PRESSURE_PA;
        }
        let absolute = Vector::of(&weights, context.0);
        let differential: Vec<f64> = (0..all).map(|i| f64::from(u8::from(i < states))).collect();
        let id = Vector::of(&differential, context.0);
        let direct = Direct::sparse(&vector, &open.matrix, context.0);
        let switches = Switches::new(net);
        let inside = Box::into_raw(Box::new(Inside { open, switches }));
        // SAFETY: all handles are live and live as long as the memory; `inside` is freed after it.
        let memory = unsafe {
            let memory = IDACreate(context.0);
            assert!(!memory.is_null(), "IDA gives no memory");
            let answers = [
                IDAInit(memory, residual, 0.0, vector.handle, slope.handle),
                IDASetUserData(memory, inside.cast()),
                IDASVtolerances(memory, hold.relative(), absolute.handle),
                IDASetMaxNumSteps(memory, 10_000_000),
                IDASetId(memory, id.handle),
                IDASetSuppressAlg(memory, 1),
                IDASetLinearSolver(memory, direct.solver, direct.matrix),
                IDASetJacFn(memory, jac),
                IDARootInit(memory, crossings(net), root),
            ];
            assert!(answers.iter().all(|&a| a == 0), "IDA refuses: {answers:?}");
            memory
        };
        let mut made = Self {
            memory,
            direct,
            vector,
            slope,
            _held: [absolute, id],
            inside,
            work: Work::default(),
            _context: context,
            _owns: PhantomData,
        };
        made.restart(0.0);
        made
    }

    /// Counts since the last beginning, which starts them anew.
    fn count(&mut self) {
        let (mut steps, mut setups): (c_long, c_long) = (0, 0);
        // SAFETY: live memory, pointers to our own numbers.
        unsafe {
            IDAGetNumSteps(self.memory, &raw mut steps);
            IDAGetNumLinSolvSetups(self.memory, &raw mut setups);
        }
        self.work.steps += steps as usize;
        self.work.factorisations += setups as usize;
    }
}

impl<'n> Integrator<'n> for Ida<'n> {
    fn given<R>(&mut self, work: impl FnOnce(&mut Balance<'n>, &mut Switches<'n>) -> R) -> R {
        // SAFETY: IDA is not running, and `inside` is ours.
        let inside = unsafe { &mut *self.inside };
        work(&mut inside.open.balance, &mut inside.switches)
    }
    fn restart(&mut self, time_s: f64) {
        self.count();
        // SAFETY: IDA is not running, and `inside` is ours.
        let open = unsafe { &mut (*self.inside).open };
        let settled = open.solve_algebraic(time_s, self.vector.numbers_mut(), self.slope.numbers_mut());
        assert!(settled, "the air does not balance");
        // SAFETY: live handles.
        let answer =
            unsafe { IDAReInit(self.memory, time_s, self.vector.handle, self.slope.handle) };
        assert!(answer == 0, "IDA does not begin anew: {answer}");
    }
    fn stop_at(&mut self, stop_s: f64) {
        // SAFETY: live memory.
        unsafe { IDASetStopTime(self.memory, stop_s) };
    }
    fn advance(&mut self, to_s: f64) -> Result<Reached, String> {
        let mut reached = 0.0;
        let (y, yp) = (self.vector.handle, self.slope.handle);
        // SAFETY: live handles; callbacks alone touch `inside` meanwhile.
        let answer = unsafe { IDASolve(self.memory, to_s, &raw mut reached, y, yp, NORMAL) };
        if held(answer, "IDASolve")? != ROOT_RETURN {
            return Ok(Reached::There);
        }
        let heaters = self.given(|balance, _| balance.network().heaters.len());
        let mut found = vec![0; heaters];
        // SAFETY: as many roots as heaters.
        unsafe { IDAGetRootInfo(self.memory, found.as_mut_ptr()) };
        Ok(Reached::Crossing(
            reached,
            (0..heaters).filter(|&h| found[h] != 0).collect(),
        ))
    }
    fn states(&self) -> Vec<f64> {
        let states = self.vector.numbers();
        // SAFETY: IDA is not running; the field is only read.
        let n = unsafe { (*self.inside).open.net.index.states() };
        states[..n].to_vec()
    }
    fn work(&mut self) -> Work {
        self.count();
        // SAFETY: IDA is not running; the counts are only read.
        let open = unsafe { &(*self.inside).open };
        let (rates, jacobians) = (open.residuals + open.balance.evaluations, open.jacobians);
        Work {
            rates,
            jacobians,
            ..self.work
        }
    }
}

impl Drop for Ida<'_> {
    fn drop(&mut self) {
        debug_assert!(!self.direct.matrix.is_null());
        // SAFETY: the memory is freed before anything it refers to; `inside` came from a box and is given back once.
        unsafe {
            IDAFree(&raw mut self.memory);
            drop(Box::from_raw(self.inside));
        }
    }
}
