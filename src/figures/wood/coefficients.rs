//! Coefficients of dimensional change.

/// Radial and tangential change of size for each percent of moisture, as shares, from 6 to 14 percent.
pub type Coefficients = Option<[f64; 2]>;

/// The coefficients of a wood by its name in the table of species; `None` where there are none.
#[must_use]
pub fn coefficients(name: &str) -> Coefficients {
    TABLE.iter().find(|row| row.0 == name).map(|row| [row.1 * 1e-5, row.2 * 1e-5])
}

/// Name, radial, tangential, in 1e-5 for each percent: Wood Handbook, FPL-GTR-190 (2010), Table 13-5.
/// The oaks are its commercial groups.
#[rustfmt::skip]
const TABLE: [(&str, f64, f64); 24] = [
    ("Red alder", 151.0, 256.0),
    ("Apple", 205.0, 376.0),
    ("White ash", 169.0, 274.0),
    ("American basswood", 230.0, 330.0),
    ("American beech", 190.0, 431.0),
    ("Paper birch", 219.0, 304.0),
    ("Yellow birch", 256.0, 338.0),
    ("Butternut", 116.0, 223.0),
    ("Black cherry", 126.0, 248.0),
    ("American elm", 144.0, 338.0),
    ("Hackberry", 165.0, 315.0),
    ("Black locust", 158.0, 252.0),
    ("Bigleaf maple", 126.0, 248.0),
    ("Red maple", 137.0, 289.0),
    ("Silver maple", 102.0, 252.0),
    ("Sugar (hard) maple", 165.0, 353.0),
    ("Northern red oak", 158.0, 369.0),
    ("White oak", 180.0, 365.0),
    ("Common persimmon", 278.0, 403.0),
    ("Sassafras", 137.0, 216.0),
    ("Sweetgum", 183.0, 365.0),
    ("American sycamore", 172.0, 296.0),
    ("Black tupelo", 176.0, 308.0),
    ("Black walnut", 190.0, 274.0),
];
