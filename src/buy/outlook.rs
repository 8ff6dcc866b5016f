//! What a piece may fetch in one channel and how long it may wait: a mixture over what it may be.

use super::mean_exp::MeanExp;
use super::student_t::StudentT;
use super::terms::Channel;
use super::waiting::Wait;

/// Waits at which a loss is added up: the middles of this many equal shares (common practice, no source).
const WAITS: usize = 8;

/// Steps of halving in which a quantile is found: they leave 42 / 2⁶⁰ < 1e-12 of the log price, on top of what the
/// distribution function itself is off by.
const HALVINGS: usize = 60;

/// Log prices between which quantiles are sought, in major units: from a millionth to a million million, so that
/// any currency fits between (common practice, no source).
const LOG_PRICES: (f64, f64) = (-14.0, 28.0);

/// Distribution of price and wait.
#[derive(Clone, Debug)]
pub struct Outlook<'a> {
    /// Log price, by what the piece may be.
    pub prices: Vec<(f64, StudentT)>,
    /// Weeks to sell, by what form it may be.
    pub waits: Vec<(f64, Wait)>,
    /// Over standard t at the middles of equal shares.
    pub mean_exp: &'a MeanExp,
}

impl Outlook<'_> {
    /// Expected price in major units; see `price_model` for what it leaves out.
    pub fn mean_price(&self) -> f64 {
        let mean = |t: &StudentT| t.location.exp() * self.mean_exp.at(t.scale);
        self.prices.iter().map(|(share, t)| share * mean(t)).sum()
    }

    /// P(price ≤ x), x in major units.
    pub fn price_cdf(&self, x: f64) -> f64 {
        if x <= 0.0 {
            return 0.0;
        }
        let log = x.ln();
        self.prices
            .iter()
            .map(|(share, t)| share * t.cdf(log))
            .sum()
    }

    /// The price below which a share `p` of such sales lies, in major units.
    pub fn price_quantile(&self, p: f64) -> f64 {
        let (mut low, mut high) = LOG_PRICES;
        for _ in 0..HALVINGS {
            let middle = 0.5 * (low + high);
            if self.price_cdf(middle.exp()) < p {
                low = middle;
            } else {
                high = middle;
            }
        }
        (0.5 * (low + high)).exp()
    }

    /// Expected weeks to sell.
    pub fn weeks(&self) -> f64 {
        let means = self.waits.iter().map(|(share, wait)| share * wait.mean());
        means.sum()
    }

    /// What is left on average when all but the piece is paid.
    pub fn net_before_paying(&self, channel: &Channel) -> f64 {
        self.net_of(self.mean_price(), channel)
    }

    /// The most to pay for the target margin; negative where selling costs more than it brings.
    pub fn most_to_pay(&self, channel: &Channel) -> f64 {
        let price = self.mean_price();
        self.net_of(price, channel) - channel.margin * price
    }

    fn net_of(&self, price: f64, channel: &Channel) -> f64 {
        price * (1.0 - channel.commission) - self.costs(channel)
    }

    fn costs(&self, channel: &Channel) -> f64 {
        channel.fee + channel.postage + channel.packing + channel.rent * self.weeks()
    }

    /// Chance that less comes in than went out when this was paid.
    pub fn loss_chance(&self, channel: &Channel, paid: f64) -> f64 {
        let fixed = paid + channel.fee + channel.postage + channel.packing;
        let mut loss = 0.0;
        for (share, wait) in &self.waits {
            for i in 0..WAITS {
                let weeks = wait.quantile((i as f64 + 0.5) / WAITS as f64);
                let needed = (fixed + channel.rent * weeks) / (1.0 - channel.commission);
                loss += share * self.price_cdf(needed) / WAITS as f64;
            }
        }
        loss
    }
}
