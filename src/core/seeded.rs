//! A small seeded generator: the same seed gives the same drill, and the same picture, on every machine.
//!
//! SplitMix64 (G. L. Steele, D. Lea, C. H. Flood, "Fast splittable pseudorandom number generators",
//! 2014). Fine for drills and drawing; nothing secret may ever rest on it.

/// A stream of numbers that a seed decides.
#[derive(Clone, Debug)]
pub struct Seeded(u64);

impl Seeded {
    /// The stream of this seed.
    pub fn new(seed: u64) -> Seeded {
        Seeded(seed)
    }

    /// A stream of its own for part `n` of something that has this seed.
    pub fn part(seed: u64, n: u64) -> Seeded {
        let mut far = Seeded(seed ^ n.wrapping_mul(0xd6e8_feb8_6659_fd93));
        Seeded(far.number())
    }

    /// The next 64 bits.
    pub fn number(&mut self) -> u64 {
        self.0 = self.0.wrapping_add(0x9e37_79b9_7f4a_7c15);
        mixed(self.0)
    }

    /// A number in 0..1.
    pub fn share(&mut self) -> f64 {
        share_of(self.number())
    }

    /// A whole number below `count`; 0 of none.
    pub fn below(&mut self, count: usize) -> usize {
        ((self.share() * count as f64) as usize).min(count.saturating_sub(1))
    }

    /// One of them, each alike.
    pub fn one_of<'a, T>(&mut self, all: &'a [T]) -> Option<&'a T> {
        all.get(self.below(all.len()))
    }

    /// An index with chances in proportion to these weights. With a `total` above their sum, the
    /// rest is the chance of `None`.
    pub fn weighted(
        &mut self,
        weights: impl IntoIterator<Item = f64>,
        total: f64,
    ) -> Option<usize> {
        let mut left = self.share() * total;
        for (i, weight) in weights.into_iter().enumerate() {
            left -= weight;
            if left < 0.0 {
                return Some(i);
            }
        }
        None
    }

    /// In any order, each alike (Fisher and Yates).
    pub fn shuffle<T>(&mut self, all: &mut [T]) {
        for last in (1..all.len()).rev() {
            let other = self.below(last + 1);
            all.swap(last, other);
        }
    }
}

/// 64 bits mixed so that no bit of them tells of a single one put in (the last step of SplitMix64).
pub fn mixed(z: u64) -> u64 {
    let z = (z ^ (z >> 30)).wrapping_mul(0xbf58_476d_1ce4_e5b9);
    let z = (z ^ (z >> 27)).wrapping_mul(0x94d0_49bb_1331_11eb);
    z ^ (z >> 31)
}

/// 64 bits as a number in 0..1.
pub fn share_of(bits: u64) -> f64 {
    // The 53 bits that a double can hold.
    (bits >> 11) as f64 / (1u64 << 53) as f64
}

#[cfg(test)]
mod tests {
    use super::Seeded;

    #[test]
    fn gives_the_published_numbers() {
        // First numbers of seed 1234567, as printed with the reference implementation's ports.
        let mut stream = Seeded::new(1_234_567);
        let first: Vec<u64> = (0..3).map(|_| stream.number()).collect();
        let wanted = [
            6_457_827_717_110_365_317,
            3_203_168_211_198_807_973,
            9_817_491_932_198_370_423,
        ];
        assert_eq!(first, wanted);
    }

    #[test]
    fn weights_are_kept() {
        let mut stream = Seeded::new(1);
        let mut seen = [0u32; 3];
        for _ in 0..10_000 {
            match stream.weighted([1.0, 2.0], 4.0) {
                Some(i) => seen[i] += 1,
                None => seen[2] += 1,
            }
        }
        // 4 standard errors: sqrt(10000 * 0.25 * 0.75) = 43.
        assert!(
            seen[0].abs_diff(2500) < 174 && seen[2].abs_diff(2500) < 174,
            "{seen:?}"
        );
        assert!(seen[1].abs_diff(5000) < 200, "{seen:?}");
    }
}
