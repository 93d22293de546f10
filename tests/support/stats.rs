//! The few figures that outside checks need.

/// Count, mean and variance of numbers that come one by one.
#[derive(Clone, Copy, Debug, Default)]
pub(crate) struct Sample {
    pub(crate) count: f64,
    sum: f64,
    squares: f64,
}

impl Sample {
    pub(crate) fn add(&mut self, value: f64) {
        self.count += 1.0;
        self.sum += value;
        self.squares += value * value;
    }

    pub(crate) fn mean(&self) -> f64 {
        self.sum / self.count
    }

    pub(crate) fn variance(&self) -> f64 {
        (self.squares / self.count - self.mean() * self.mean()).max(0.0)
    }

    /// Adds what another sample holds.
    pub(crate) fn merge(&mut self, other: &Sample) {
        self.count += other.count;
        self.sum += other.sum;
        self.squares += other.squares;
    }

    /// Standard error of the mean.
    pub(crate) fn error(&self) -> f64 {
        (self.variance() / self.count).sqrt()
    }
}

impl FromIterator<f64> for Sample {
    fn from_iter<T: IntoIterator<Item = f64>>(values: T) -> Sample {
        let mut sample = Sample::default();
        values.into_iter().for_each(|value| sample.add(value));
        sample
    }
}

/// Standard errors by which the first mean lies above the second, for independent samples.
pub(crate) fn above(first: &Sample, second: &Sample) -> f64 {
    let error = (first.error().powi(2) + second.error().powi(2)).sqrt();
    (first.mean() - second.mean()) / error.max(f64::MIN_POSITIVE)
}

/// The 95 % interval of a share among so many cases (E. B. Wilson, J. Amer. Statist. Assoc. 22
/// (1927), 209-212).
pub(crate) fn wilson(share: f64, count: f64) -> (f64, f64) {
    let z = 1.959_963_984_540_054_f64;
    let weight = 1.0 + z * z / count;
    let middle = (share + z * z / (2.0 * count)) / weight;
    let half = z / weight * (share * (1.0 - share) / count + z * z / (4.0 * count * count)).sqrt();
    (middle - half, middle + half)
}

/// The value below which a share of `values` lies; these need not be in order.
pub(crate) fn quantile(values: &[f64], share: f64) -> f64 {
    let mut sorted = values.to_vec();
    sorted.sort_by(f64::total_cmp);
    sorted[((sorted.len() - 1) as f64 * share).round() as usize]
}

/// Pearson's chi-square of counts against chances.
pub(crate) fn chi_square(counts: &[u32], chances: &[f64]) -> f64 {
    assert_eq!(counts.len(), chances.len());
    let total: u32 = counts.iter().sum();
    let term = |(&count, &chance): (&u32, &f64)| {
        let expected = chance * f64::from(total);
        assert!(expected >= 5.0, "{expected} expected: too few for chi-square");
        (f64::from(count) - expected).powi(2) / expected
    };
    counts.iter().zip(chances).map(term).sum()
}

/// The value chi-square passes with a chance of one in a thousand, by degrees of freedom
/// (NIST/SEMATECH e-Handbook of Statistical Methods, section 1.3.6.7.4).
pub(crate) fn chi_square_limit(freedom: usize) -> f64 {
    let table = [(4, 18.467), (5, 20.515), (6, 22.458), (10, 29.588), (20, 45.315)];
    let row = table.iter().find(|(known, _)| *known == freedom);
    row.expect("the table has the degrees of freedom that tests use").1
}
