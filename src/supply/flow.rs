//! The assignment itself: which letters serve which demands, the most that can be served, at least cost.
//!
//! A maximum flow of least cost by successive shortest paths (Ford and Fulkerson 1962; Busacker and Gowen 1960): while there is a
//! way to serve one more, the cheapest such way is taken, which may hand letters that serve already on to other demands. Must not
//! know what the demands and the letters are.

/// Letters that can serve the same demands at the same costs.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(super) struct Offer {
    /// The demands that it can serve, by number, each with its cost.
    pub(super) serves: Box<[(u16, i32)]>,
    /// How many there are.
    pub(super) left: u32,
}

impl Offer {
    /// Whether its letters stand in for `wanted`: by themselves they cost nothing.
    pub(super) fn stands_in(&self, wanted: u16) -> bool {
        self.serves.iter().any(|&(serves, cost)| serves == wanted && cost > 0)
    }
}

/// Which offers serve which demands.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub(super) struct Assignment {
    /// A demand, an offer that serves it, and how many letters of it: by their places in the lists.
    pub(super) parts: Vec<(usize, usize, u32)>,
    /// The demands that are not met, by their places, and how many letters are lacking.
    pub(super) short: Vec<(usize, u32)>,
    /// What the parts cost together.
    pub(super) cost: i64,
}

/// Serves as many of `demands`, each a number with how many letters it needs, as `offers` can, at least cost. Equal inputs give
/// equal answers.
pub(super) fn assign(demands: &[(u16, u32)], offers: &[Offer]) -> Assignment {
    let mut graph = Graph::new(demands, offers);
    while let Some(path) = graph.cheapest() {
        graph.serve(&path);
    }
    graph.told()
}

/// What is still needed and left, and who serves whom.
struct Graph {
    needs: Vec<u32>,
    left: Vec<u32>,
    /// The demands that each offer can serve, by their places, with the costs; offer by offer.
    ways: Vec<(usize, i64)>,
    /// Where the ways of each offer start; then their number.
    starts: Vec<usize>,
    /// How many letters of an offer serve a demand, demand by demand.
    flow: Vec<u32>,
    cost: i64,
}

/// Where a demand was reached from: out of the blue, or by an offer that would be handed on from it.
type Path = Vec<(usize, usize)>;

impl Graph {
    fn new(demands: &[(u16, u32)], offers: &[Offer]) -> Self {
        let (mut ways, mut starts) = (Vec::new(), vec![0]);
        for offer in offers {
            let place = |number: u16| demands.iter().position(|&(asked, _)| asked == number);
            ways.extend(
                offer.serves.iter().filter_map(|&(number, cost)| Some((place(number)?, i64::from(cost)))),
            );
            starts.push(ways.len());
        }
        Self {
            needs: demands.iter().map(|&(_, needs)| needs).collect(),
            left: offers.iter().map(|offer| offer.left).collect(),
            ways,
            starts,
            flow: vec![0; demands.len() * offers.len()],
            cost: 0,
        }
    }

    fn at(&self, demand: usize, offer: usize) -> usize {
        demand * self.left.len() + offer
    }

    fn ways(&self, offer: usize) -> &[(usize, i64)] {
        &self.ways[self.starts[offer]..self.starts[offer + 1]]
    }

    /// The cheapest way to serve one more letter: pairs of a demand and the offer that serves it next, the last offer having
    /// letters left. Each offer but the last is taken from the demand that follows.
    fn cheapest(&self) -> Option<Path> {
        const FAR: i64 = i64::MAX / 4;
        let demands = self.needs.len();
        let mut to_demand: Vec<i64> =
            self.needs.iter().map(|&needs| if needs > 0 { 0 } else { FAR }).collect();
        let mut to_offer = vec![(FAR, 0); self.left.len()];
        let mut from_offer = vec![usize::MAX; demands];
        // Bellman and Ford: no path has more steps than there are demands.
        for _ in 0..=demands {
            let mut nearer = false;
            for (offer, way) in to_offer.iter_mut().enumerate() {
                for &(demand, cost) in self.ways(offer) {
                    if to_demand[demand] + cost < way.0 {
                        *way = (to_demand[demand] + cost, demand);
                        nearer = true;
                    }
                }
            }
            for (offer, way) in to_offer.iter().enumerate().filter(|(_, way)| way.0 < FAR) {
                for &(demand, cost) in self.ways(offer) {
                    if self.flow[self.at(demand, offer)] > 0 && way.0 - cost < to_demand[demand] {
                        to_demand[demand] = way.0 - cost;
                        from_offer[demand] = offer;
                        nearer = true;
                    }
                }
            }
            if !nearer {
                break;
            }
        }
        let ends = (0..self.left.len()).filter(|&offer| self.left[offer] > 0 && to_offer[offer].0 < FAR);
        let mut offer = ends.min_by_key(|&offer| to_offer[offer].0)?;
        let mut path = Path::new();
        loop {
            let demand = to_offer[offer].1;
            path.push((demand, offer));
            if from_offer[demand] == usize::MAX {
                path.reverse();
                return Some(path);
            }
            offer = from_offer[demand];
        }
    }

    /// Serves as many letters along `path` as it bears.
    fn serve(&mut self, path: &Path) {
        let (first, last) = (path[0].0, path[path.len() - 1].1);
        let handed_on = path.windows(2).map(|pair| self.flow[self.at(pair[1].0, pair[0].1)]);
        let most = handed_on.fold(self.needs[first].min(self.left[last]), u32::min);
        for (step, &(demand, offer)) in path.iter().enumerate() {
            let at = self.at(demand, offer);
            self.flow[at] += most;
            self.cost += i64::from(most) * self.cost_of(demand, offer);
            if let Some(&(from, _)) = path.get(step + 1) {
                let at = self.at(from, offer);
                self.flow[at] -= most;
                self.cost -= i64::from(most) * self.cost_of(from, offer);
            }
        }
        self.needs[first] -= most;
        self.left[last] -= most;
    }

    fn cost_of(&self, demand: usize, offer: usize) -> i64 {
        self.ways(offer).iter().find(|way| way.0 == demand).map_or(0, |way| way.1)
    }

    fn told(self) -> Assignment {
        let offers = self.left.len();
        let parts = self.flow.iter().enumerate().filter(|&(_, &letters)| letters > 0);
        let short = self.needs.iter().enumerate().filter(|&(_, &needs)| needs > 0);
        Assignment {
            parts: parts.map(|(at, &letters)| (at / offers, at % offers, letters)).collect(),
            short: short.map(|(place, &needs)| (place, needs)).collect(),
            cost: self.cost,
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn offer(serves: &[(u16, i32)], left: u32) -> Offer {
        Offer { serves: serves.into(), left }
    }

    #[test]
    fn a_trimmed_q_serves_once() {
        // 0: O, 1: Q. One Q, no O: of two letters one is short, and the Q stays a Q.
        let assigned = assign(&[(0, 1), (1, 1)], &[offer(&[(0, 80), (1, 0)], 1)]);
        assert_eq!(assigned.parts, [(1, 0, 1)]);
        assert_eq!(assigned.short, [(0, 1)]);
        assert_eq!(assigned.cost, 0);
    }

    #[test]
    fn letters_are_handed_on_where_that_serves_more() {
        // The first offer is cheapest for both; only the second demand has another.
        let offers = [offer(&[(0, 5), (1, 0)], 1), offer(&[(1, 7)], 1)];
        let assigned = assign(&[(0, 1), (1, 1)], &offers);
        assert!(assigned.short.is_empty());
        assert_eq!(assigned.cost, 12);
        assert_eq!(assigned.parts, [(0, 0, 1), (1, 1, 1)]);
    }

    #[test]
    fn many_letters_go_at_once() {
        let offers = [offer(&[(3, 0)], 4), offer(&[(3, 2), (9, 0)], 200)];
        let assigned = assign(&[(3, 150), (9, 60)], &offers);
        assert_eq!(assigned.short, [(0, 6)]);
        assert_eq!(assigned.cost, 280, "140 of the second at 2 each; its own demand keeps 60");
    }

    #[test]
    fn nothing_is_asked_or_offered() {
        assert_eq!(assign(&[], &[offer(&[(0, 0)], 1)]), Assignment::default());
        assert_eq!(assign(&[(0, 2)], &[]).short, [(0, 2)]);
    }
}
