//! What SUNDIALS' callbacks work on, and safe clothing for its vectors and matrices.

use crate::columns::Columns;
use crate::problem::{Field, Switches};
use crate::sundials::*;

/// The field and the switches, behind the pointer that callbacks are handed.
pub struct Inside<'n> {
    /// The rates and slopes.
    pub field: Field<'n>,
    /// The heaters.
    pub switches: Switches<'n>,
}

/// The numbers of a serial vector.
///
/// # Safety
/// `vector` must be a live serial vector of at least this length, and nothing else may use its numbers while the slice
/// lives.
pub unsafe fn numbers<'a>(vector: Handle, length: usize) -> &'a mut [f64] {
    // SAFETY: promised by the caller; a serial vector's numbers are one contiguous array.
    unsafe { std::slice::from_raw_parts_mut(N_VGetArrayPointer_Serial(vector), length) }
}

/// A serial vector that is destroyed when dropped.
pub struct Vector {
    /// The handle.
    pub handle: Handle,
    length: usize,
}

impl Vector {
    /// A copy of these numbers.
    pub fn of(numbers: &[f64], context: Handle) -> Self {
        // SAFETY: the context is live; a null answer is caught before it is used.
        let handle = unsafe { N_VNew_Serial(numbers.len() as i64, context) };
        assert!(!handle.is_null(), "SUNDIALS has no room for a vector");
        let mut made = Self {
            handle,
            length: numbers.len(),
        };
        made.numbers_mut().copy_from_slice(numbers);
        made
    }
    /// Its numbers.
    pub fn numbers(&self) -> &[f64] {
        // SAFETY: the vector is live and ours; the borrow of self keeps others off.
        unsafe { numbers(self.handle, self.length) }
    }
    /// Its numbers, to be changed.
    pub fn numbers_mut(&mut self) -> &mut [f64] {
        // SAFETY: as above, and the borrow is exclusive.
        unsafe { numbers(self.handle, self.length) }
    }
}

impl Drop for Vector {
    fn drop(&mut self) {
        // SAFETY: made by N_VNew_Serial, destroyed once.
        unsafe { N_VDestroy_Serial(self.handle) }
    }
}

/// A matrix and the direct solver that factors it.
pub struct Direct {
    /// The matrix.
    pub matrix: Handle,
    /// The solver.
    pub solver: Handle,
}

impl Direct {
    /// A full matrix of this size, by LAPACK-like elimination with pivoting.
    pub fn dense(vector: &Vector, context: Handle) -> Self {
        let size = vector.length as i64;
        // SAFETY: live context and vector; null answers are caught below.
        let made = unsafe {
            let matrix = SUNDenseMatrix(size, size, context);
            let solver = SUNLinSol_Dense(vector.handle, matrix, context);
            Self { matrix, solver }
        };
        made.live()
    }

    /// A sparse matrix with this pattern, by KLU with the AMD ordering.
    pub fn sparse(vector: &Vector, pattern: &Columns, context: Handle) -> Self {
        let size = vector.length as i64;
        let entries = pattern.rows.len();
        // SAFETY: live context and vector; the pattern is written before the solver looks at the matrix.
        let made = unsafe {
            let matrix = SUNSparseMatrix(size, size, entries as i64, BY_COLUMNS, context);
            assert!(!matrix.is_null(), "SUNDIALS has no room for a matrix");
            let zeros = Columns {
                values: vec![0.0; entries],
                ..pattern.clone()
            };
            write_sparse(matrix, &zeros);
            let solver = SUNLinSol_KLU(vector.handle, matrix, context);
            SUNLinSol_KLUSetOrdering(solver, AMD);
            Self { matrix, solver }
        };
        made.live()
    }

    fn live(self) -> Self {
        let live = !self.matrix.is_null() && !self.solver.is_null();
        assert!(live, "SUNDIALS has no room for a matrix");
        self
    }
}

impl Drop for Direct {
    fn drop(&mut self) {
        // SAFETY: both were made here and are destroyed once, the solver first.
        unsafe {
            SUNLinSolFree(self.solver);
            SUNMatDestroy(self.matrix);
        }
    }
}

/// Writes pattern and values: SUNDIALS zeroes both before it asks for slopes.
///
/// # Safety
/// `matrix` must be a live sparse matrix by columns with room for these entries.
pub unsafe fn write_sparse(matrix: Handle, columns: &Columns) {
    let (entries, starts) = (columns.rows.len(), columns.starts.len());
    // SAFETY: the three arrays have room for `entries`, `entries` and one more than the columns; promised by the caller.
    unsafe {
        let values = std::slice::from_raw_parts_mut(SUNSparseMatrix_Data(matrix), entries);
        values.copy_from_slice(&columns.values);
        let rows = std::slice::from_raw_parts_mut(SUNSparseMatrix_IndexValues(matrix), entries);
        rows.iter_mut()
            .zip(&columns.rows)
            .for_each(|(to, &row)| *to = row as i64);
        let pointers =
            std::slice::from_raw_parts_mut(SUNSparseMatrix_IndexPointers(matrix), starts);
        pointers
            .iter_mut()
            .zip(&columns.starts)
            .for_each(|(to, &start)| *to = start as i64);
    }
}

/// Says what failed if SUNDIALS says so.
pub fn held(answer: i32, what: &str) -> Result<i32, String> {
    if answer < 0 {
        Err(format!("SUNDIALS: {what} answered {answer}"))
    } else {
        Ok(answer)
    }
}

/// A context that is freed when dropped.
pub struct Context(pub Handle);

impl Context {
    /// A new one.
    pub fn new() -> Self {
        let mut context = std::ptr::null_mut();
        // SAFETY: a null communicator is what serial use asks for; the pointer is ours.
        let answer = unsafe { SUNContext_Create(std::ptr::null_mut(), &raw mut context) };
        assert!(answer == 0, "SUNDIALS gives no context");
        Self(context)
    }
}

impl Drop for Context {
    fn drop(&mut self) {
        // SAFETY: made by SUNContext_Create, freed once, after all that was made in it.
        unsafe {
            SUNContext_Free(&raw mut self.0);
        }
    }
}
