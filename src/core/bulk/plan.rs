//! Which rows of likelihoods are multiplied with which, so that no product is made twice.
//!
//! A table tells pairs of kind and place apart only as far as its rows differ. Two findings together tell
//! apart no more pairs than there are pairs of their rows, so the two that tell fewest apart are multiplied
//! first, row by row, then the next two, until two are left (as in D. A. Huffman's codes, 1952). Twelve
//! findings take a third of the multiplications that pair after pair would take.

use crate::core::product::Factor;

/// A row: of a factor when below the number of those, else a product of two earlier ones.
pub(super) type RowId = u32;

/// The products of one piece.
#[derive(Debug, Default)]
pub(super) struct Plan {
    /// Factor and row of the table, of each row that is no product.
    pub leaves: Vec<(usize, usize)>,
    /// What the others are products of.
    pub products: Vec<(RowId, RowId)>,
    /// For each live pair the rows whose product its prior is multiplied by, at `pair · roots + root`.
    pub roots_of: Vec<RowId>,
    /// 0 to `ROOTS`.
    pub roots: usize,
    seen: Vec<u32>,
}

/// Partial products left at the end: multiplied into the prior in one go.
const ROOTS: usize = 2;

/// What some findings together tell apart.
struct Node {
    /// The row of each live pair.
    row_of: Vec<RowId>,
    /// Rows run from here.
    first: RowId,
    count: usize,
}

impl Plan {
    /// Plans anew for these factors over these pairs.
    pub(super) fn make(&mut self, factors: &[Factor], pairs: &[usize]) {
        self.leaves.clear();
        self.products.clear();
        self.roots_of.clear();
        let mut nodes: Vec<Node> = Vec::with_capacity(factors.len());
        for (f, factor) in factors.iter().enumerate() {
            let first = self.leaves.len() as RowId;
            let row_of = pairs.iter().map(|p| first + factor.row_of(*p) as RowId);
            let node = Node {
                row_of: row_of.collect(),
                first,
                count: factor.rows(),
            };
            self.leaves.extend((0..node.count).map(|row| (f, row)));
            nodes.push(node);
        }
        while nodes.len() > ROOTS {
            let a = take_smallest(&mut nodes);
            let b = take_smallest(&mut nodes);
            let both = self.together(a, &b);
            nodes.push(both);
        }
        self.roots = nodes.len();
        for at in 0..pairs.len() {
            self.roots_of.extend(nodes.iter().map(|n| n.row_of[at]));
        }
    }

    /// The products of two nodes' rows that some pair needs.
    fn together(&mut self, mut a: Node, b: &Node) -> Node {
        const NONE: u32 = u32::MAX;
        self.seen.clear();
        self.seen.resize(a.count * b.count, NONE);
        let first = (self.leaves.len() + self.products.len()) as RowId;
        for (of_a, of_b) in a.row_of.iter_mut().zip(&b.row_of) {
            let at = (*of_a - a.first) as usize * b.count + (*of_b - b.first) as usize;
            if self.seen[at] == NONE {
                self.seen[at] = (self.leaves.len() + self.products.len()) as RowId;
                self.products.push((*of_a, *of_b));
            }
            *of_a = self.seen[at];
        }
        let end = (self.leaves.len() + self.products.len()) as RowId;
        Node {
            row_of: a.row_of,
            first,
            count: (end - first) as usize,
        }
    }
}

fn take_smallest(nodes: &mut Vec<Node>) -> Node {
    let mut least = 0;
    for (i, node) in nodes.iter().enumerate() {
        if node.count < nodes[least].count {
            least = i;
        }
    }
    nodes.swap_remove(least)
}
