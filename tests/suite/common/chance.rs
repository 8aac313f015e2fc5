//! Numbers that look random and are the same in every run.

/// A generator from a seed (xorshift).
pub struct Chance(u64);

impl Chance {
    pub fn new(seed: u64) -> Self {
        Self(seed.wrapping_mul(0x9E37_79B9_7F4A_7C15) | 1)
    }

    /// A number below `end`.
    pub fn below(&mut self, end: usize) -> usize {
        self.0 ^= self.0 << 13;
        self.0 ^= self.0 >> 7;
        self.0 ^= self.0 << 17;
        usize::try_from(self.0 >> 33).expect("31 bits fit") % end.max(1)
    }

    pub fn shuffle<T>(&mut self, list: &mut [T]) {
        for n in (1..list.len()).rev() {
            list.swap(n, self.below(n + 1));
        }
    }
}
