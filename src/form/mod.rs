//! The form: the values as a screen groups them, and how each is changed.
//!
//! [`Field`] names every number of a design: one table gives each its path, its place in the document, its bound, its
//! slider and its words. [`sections`] puts them in groups, [`shop_sections`] those of the shop. A [`Row`] is how any
//! number looks on screen. [`edit`] and [`moves`] change a design as a whole: what has to move together moves together.

pub mod bits;
pub mod edit;
pub mod features;
pub mod fields;
mod group;
pub mod moves;
pub mod own;
pub mod own_woods;
pub mod parts;
mod place;
mod recognised;
mod row;
mod sections;
mod shop;
mod shown;
mod together;

pub use fields::Field;
pub use group::{Group, group_of_cut, group_of_movable};
pub use moves::Movable;
pub use place::nodes_of;
pub use recognised::recognised;
pub use row::Row;
pub use sections::{Section, SectionKey, hollow_names, sections, shop_value};
pub use shop::{ShopField, ShopSection, accepted, set_grits, shop_sections};
pub use shown::{Shown, point_count, shown, shown_in_design};
pub use together::{NOTHING_ELSE, shape_together, together_names, together_now};
