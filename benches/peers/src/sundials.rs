//! The few functions of SUNDIALS 6.4.1 (Debian's `libsundials-dev`) that are called, written out by hand from its headers:
//! `realtype` is a double, `sunindextype` 64 bits wide, as that package is built. All handles are opaque pointers.

#![allow(missing_docs)]

use std::ffi::{c_int, c_long, c_void};

pub type Handle = *mut c_void;
pub type Rhs = extern "C" fn(f64, Handle, Handle, Handle) -> c_int;
pub type Root = extern "C" fn(f64, Handle, *mut f64, Handle) -> c_int;
pub type Jac = extern "C" fn(f64, Handle, Handle, Handle, Handle, Handle, Handle, Handle) -> c_int;
pub type Residual = extern "C" fn(f64, Handle, Handle, Handle, Handle) -> c_int;
pub type IdaRoot = extern "C" fn(f64, Handle, Handle, *mut f64, Handle) -> c_int;
pub type IdaJac = extern "C" fn(
    f64,
    f64,
    Handle,
    Handle,
    Handle,
    Handle,
    Handle,
    Handle,
    Handle,
    Handle,
) -> c_int;

pub const BDF: c_int = 2;
pub const NORMAL: c_int = 1;
pub const ROOT_RETURN: c_int = 2;
pub const BY_COLUMNS: c_int = 0;
/// KLU's ordering by approximate minimum degree.
pub const AMD: c_int = 0;

#[link(name = "sundials_cvode")]
unsafe extern "C" {
    pub fn CVodeCreate(method: c_int, context: Handle) -> Handle;
    pub fn CVodeInit(memory: Handle, rhs: Rhs, t0: f64, y0: Handle) -> c_int;
    pub fn CVodeReInit(memory: Handle, t0: f64, y0: Handle) -> c_int;
    pub fn CVodeSVtolerances(memory: Handle, relative: f64, absolute: Handle) -> c_int;
    pub fn CVodeRootInit(memory: Handle, roots: c_int, root: Root) -> c_int;
    pub fn CVodeSetUserData(memory: Handle, data: Handle) -> c_int;
    pub fn CVodeSetMaxNumSteps(memory: Handle, most: c_long) -> c_int;
    pub fn CVodeSetStopTime(memory: Handle, stop: f64) -> c_int;
    pub fn CVodeSetLinearSolver(memory: Handle, solver: Handle, matrix: Handle) -> c_int;
    pub fn CVodeSetJacFn(memory: Handle, jac: Jac) -> c_int;
    pub fn CVode(memory: Handle, to: f64, y: Handle, reached: *mut f64, task: c_int) -> c_int;
    pub fn CVodeGetRootInfo(memory: Handle, found: *mut c_int) -> c_int;
    pub fn CVodeGetNumSteps(memory: Handle, count: *mut c_long) -> c_int;
    pub fn CVodeGetNumLinSolvSetups(memory: Handle, count: *mut c_long) -> c_int;
    pub fn CVodeFree(memory: *mut Handle);
}

#[link(name = "sundials_ida")]
unsafe extern "C" {
    pub fn IDACreate(context: Handle) -> Handle;
    pub fn IDAInit(memory: Handle, residual: Residual, t0: f64, y0: Handle, yp0: Handle) -> c_int;
    pub fn IDAReInit(memory: Handle, t0: f64, y0: Handle, yp0: Handle) -> c_int;
    pub fn IDASVtolerances(memory: Handle, relative: f64, absolute: Handle) -> c_int;
    pub fn IDARootInit(memory: Handle, roots: c_int, root: IdaRoot) -> c_int;
    pub fn IDASetUserData(memory: Handle, data: Handle) -> c_int;
    pub fn IDASetMaxNumSteps(memory: Handle, most: c_long) -> c_int;
    pub fn IDASetStopTime(memory: Handle, stop: f64) -> c_int;
    pub fn IDASetId(memory: Handle, id: Handle) -> c_int;
    pub fn IDASetSuppressAlg(memory: Handle, suppress: c_int) -> c_int;
    pub fn IDASetLinearSolver(memory: Handle, solver: Handle, matrix: Handle) -> c_int;
    pub fn IDASetJacFn(memory: Handle, jac: IdaJac) -> c_int;
    pub fn IDASolve(
        memory: Handle,
        to: f64,
        reached: *mut f64,
        y: Handle,
        yp: Handle,
        task: c_int,
    ) -> c_int;
    pub fn IDAGetRootInfo(memory: Handle, found: *mut c_int) -> c_int;
    pub fn IDAGetNumSteps(memory: Handle, count: *mut c_long) -> c_int;
    pub fn IDAGetNumLinSolvSetups(memory: Handle, count: *mut c_long) -> c_int;
    pub fn IDAFree(memory: *mut Handle);
}

#[link(name = "sundials_nvecserial")]
unsafe extern "C" {
    pub fn N_VNew_Serial(length: i64, context: Handle) -> Handle;
    pub fn N_VGetArrayPointer_Serial(vector: Handle) -> *mut f64;
    pub fn N_VDestroy_Serial(vector: Handle);
}

#[link(name = "sundials_sunmatrixdense")]
unsafe extern "C" {
    pub fn SUNDenseMatrix(rows: i64, columns: i64, context: Handle) -> Handle;
    pub fn SUNDenseMatrix_Data(matrix: Handle) -> *mut f64;
}

#[link(name = "sundials_sunmatrixsparse")]
unsafe extern "C" {
    pub fn SUNSparseMatrix(
        rows: i64,
        columns: i64,
        entries: i64,
        kind: c_int,
        context: Handle,
    ) -> Handle;
    pub fn SUNSparseMatrix_Data(matrix: Handle) -> *mut f64;
    pub fn SUNSparseMatrix_IndexValues(matrix: Handle) -> *mut i64;
    pub fn SUNSparseMatrix_IndexPointers(matrix: Handle) -> *mut i64;
}

#[link(name = "sundials_sunlinsoldense")]
unsafe extern "C" {
    pub fn SUNLinSol_Dense(vector: Handle, matrix: Handle, context: Handle) -> Handle;
}

#[link(name = "sundials_sunlinsolklu")]
unsafe extern "C" {
    pub fn SUNLinSol_KLU(vector: Handle, matrix: Handle, context: Handle) -> Handle;
    pub fn SUNLinSol_KLUSetOrdering(solver: Handle, ordering: c_int) -> c_int;
}

#[link(name = "sundials_generic")]
unsafe extern "C" {
    pub fn SUNContext_Create(comm: Handle, context: *mut Handle) -> c_int;
    pub fn SUNContext_Free(context: *mut Handle) -> c_int;
    pub fn SUNMatDestroy(matrix: Handle);
    pub fn SUNLinSolFree(solver: Handle) -> c_int;
}
