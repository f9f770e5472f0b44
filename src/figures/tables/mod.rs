//! Tables of outside values, each with its source: what is scooped, and the measures it is told in.

pub mod balance;
pub mod boring_speed;
pub mod contents;
pub mod lathe_speed;
pub mod measures;
pub mod species;

pub use balance::BalanceGrade;
pub use contents::{Basis, Content, Repose};
pub use measures::{Kitchen, Measure};
pub use species::Species;
