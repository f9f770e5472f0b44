//! The bits of the shop: their numbers, added and changed.

use super::row::Row;
use super::shop::accepted;
use crate::design::validation::bounds;
use crate::design::{Bit, BitKind, Problem, Shop};

/// The numbers of a bit.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum BitNumber {
    /// Diameter of its cutting edge.
    Diameter,
    /// How far its point reaches past the edge.
    Point,
    /// How deep it can bore.
    Reach,
}

impl BitNumber {
    /// All three.
    pub const ALL: [Self; 3] = [Self::Diameter, Self::Point, Self::Reach];

    /// How it looks on screen.
    #[must_use]
    pub fn row(self) -> Row {
        match self {
            Self::Diameter => Row::new("Diameter", bounds::BIT_DIAMETER, 3.0, 80.0),
            Self::Point => Row::new("Point past its edge", bounds::BIT_POINT, 0.0, 20.0),
            Self::Reach => Row::new("Reach", bounds::MACHINE, 20.0, 250.0),
        }
    }

    /// The number of a bit, in mm; 0 for a bit that is not there.
    #[must_use]
    pub fn of(self, shop: &Shop, bit: usize) -> f64 {
        shop.bits.get(bit).map_or(0.0, |bit| match self {
            Self::Diameter => bit.diameter_mm,
            Self::Point => bit.point_mm,
            Self::Reach => bit.reach_mm,
        })
    }
}

/// The shop with this number of a bit changed.
///
/// # Errors
///
/// The first problem that the change would bring in.
pub fn set_bit_number(shop: &Shop, bit: usize, number: BitNumber, value: f64) -> Result<Shop, Box<Problem>> {
    accepted(shop, |changed| {
        if let Some(bit) = changed.bits.get_mut(bit) {
            match number {
                BitNumber::Diameter => bit.diameter_mm = value,
                BitNumber::Point => bit.point_mm = value,
                BitNumber::Reach => bit.reach_mm = value,
            }
        }
    })
}

/// Makes a bit one of this kind.
pub fn set_bit_kind(shop: &mut Shop, bit: usize, kind: BitKind) {
    if let Some(bit) = shop.bits.get_mut(bit) {
        bit.kind = kind;
    }
}

/// Adds a bit like the last one, or a 25 mm Forstner bit; nothing when the list is full.
pub fn add_bit(shop: &mut Shop) {
    let new = Bit { kind: BitKind::Forstner, diameter_mm: 25.0, point_mm: 3.0, reach_mm: 90.0 };
    if shop.bits.len() < bounds::BITS {
        shop.bits.push(shop.bits.last().copied().unwrap_or(new));
    }
}

/// What a kind of bit is called.
#[must_use]
pub const fn bit_kind_name(kind: BitKind) -> &'static str {
    match kind {
        BitKind::Forstner => "Forstner",
        BitKind::Sawtooth => "Sawtooth",
        BitKind::Spade => "Spade",
        BitKind::Twist => "Twist",
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn bits_are_added_and_changed() {
        let mut shop = Shop::default();
        let count = shop.bits.len();
        add_bit(&mut shop);
        assert_eq!(shop.bits.len(), count + 1);
        let changed = set_bit_number(&shop, count, BitNumber::Diameter, 13.0).unwrap();
        assert_eq!(BitNumber::Diameter.of(&changed, count), 13.0);
        assert!(set_bit_number(&shop, 0, BitNumber::Reach, -1.0).is_err());
        set_bit_kind(&mut shop, 0, BitKind::Spade);
        assert_eq!(shop.bits[0].kind, BitKind::Spade);
        for _ in 0..200 {
            add_bit(&mut shop);
        }
        assert_eq!(shop.problems(), []);
    }
}
