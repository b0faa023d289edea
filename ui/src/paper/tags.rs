//! The structure of a paper, which a screen reader follows: titles, paragraphs, tables and pictures with their words, in the order in which they are set.
//!
//! Whatever is drawn belongs to the innermost open element that takes content, or is an artifact: lines, pictures beside their own words, heads and feet of later pages.
//! Source: ISO 32000-1, 14.7 and 14.8.

use pdf_writer::types::{StructRole, TableHeaderScope};
use pdf_writer::{Finish, Name, Pdf, Ref, TextStr};

/// One kind of element.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(super) enum Tag {
    Title,
    Section,
    Text,
    /// What a picture says that stands for words.
    Figure(String),
    Table,
    Row,
    /// Over a column.
    ColumnHead,
    /// Before a row.
    RowHead,
    Cell,
}

impl Tag {
    fn role(&self) -> StructRole {
        match self {
            Tag::Title => StructRole::H1,
            Tag::Section => StructRole::H2,
            Tag::Text => StructRole::P,
            Tag::Figure(_) => StructRole::Figure,
            Tag::Table => StructRole::Table,
            Tag::Row => StructRole::TR,
            Tag::ColumnHead | Tag::RowHead => StructRole::TH,
            Tag::Cell => StructRole::TD,
        }
    }

    /// Its name in the content of a page.
    fn name(&self) -> Name<'static> {
        match self {
            Tag::Title => Name(b"H1"),
            Tag::Section => Name(b"H2"),
            Tag::Figure(_) => Name(b"Figure"),
            _ => Name(b"P"),
        }
    }

    fn takes_content(&self) -> bool {
        matches!(self, Tag::Title | Tag::Section | Tag::Text | Tag::Figure(_))
    }
}

#[derive(Debug)]
enum Kid {
    Node(usize),
    /// A piece of a page's content, by its number there.
    Mark {
        page: usize,
        number: i32,
    },
}

#[derive(Debug)]
struct Node {
    tag: Tag,
    parent: Option<usize>,
    kids: Vec<Kid>,
}

/// The elements so far, and which of them are open.
#[derive(Debug, Default)]
pub(super) struct Tags {
    nodes: Vec<Node>,
    /// The outermost elements, in order.
    top: Vec<usize>,
    open: Vec<usize>,
    /// For each page the element of each of its pieces.
    pages: Vec<Vec<usize>>,
}

impl Tags {
    pub(super) fn begin(&mut self, tag: Tag) {
        let (at, parent) = (self.nodes.len(), self.open.last().copied());
        match parent.and_then(|parent| self.nodes.get_mut(parent)) {
            Some(parent) => parent.kids.push(Kid::Node(at)),
            None => self.top.push(at),
        }
        self.nodes.push(Node {
            tag,
            parent,
            kids: Vec::new(),
        });
        self.open.push(at);
    }

    pub(super) fn end(&mut self) {
        self.open.pop();
    }

    /// What the next piece of a page belongs to: its name and number there; nothing for an artifact.
    pub(super) fn mark(&mut self, page: usize) -> Option<(Name<'static>, i32)> {
        let at = *self.open.last()?;
        let node = self.nodes.get_mut(at)?;
        if !node.tag.takes_content() {
            return None;
        }
        while self.pages.len() <= page {
            self.pages.push(Vec::new());
        }
        let pieces = self.pages.get_mut(page)?;
        let number = i32::try_from(pieces.len()).ok()?;
        pieces.push(at);
        node.kids.push(Kid::Mark { page, number });
        Some((node.tag.name(), number))
    }

    /// Writes the tree; `first` is the first free number of an object, `page` gives the object of a page.
    pub(super) fn write(&self, pdf: &mut Pdf, root: Ref, first: i32, page: impl Fn(usize) -> Ref) {
        let place = |at: usize| i32::try_from(at).unwrap_or(i32::MAX / 4);
        let document = Ref::new(first);
        let node = |at: usize| Ref::new(first + 1 + place(at));
        let pieces = |at: usize| Ref::new(first + 1 + place(self.nodes.len()) + place(at));
        let mut tree = pdf
            .indirect(root)
            .start::<pdf_writer::writers::StructTreeRoot>();
        tree.child(document);
        tree.parent_tree_next_key(place(self.pages.len()));
        let mut parents = tree.parent_tree();
        let mut nums = parents.nums();
        for at in 0..self.pages.len() {
            nums.insert(place(at), pieces(at));
        }
        nums.finish();
        parents.finish();
        tree.finish();
        for (at, own) in self.pages.iter().enumerate() {
            pdf.indirect(pieces(at))
                .array()
                .items(own.iter().map(|of| node(*of)));
        }
        let mut whole = pdf.struct_element(document);
        whole.kind(StructRole::Document).parent(root);
        let mut kids = whole.children();
        for at in &self.top {
            kids.struct_element(node(*at));
        }
        kids.finish();
        whole.finish();
        for (at, one) in self.nodes.iter().enumerate() {
            let mut element = pdf.struct_element(node(at));
            element.kind(one.tag.role());
            element.parent(one.parent.map_or(document, node));
            match &one.tag {
                Tag::Figure(says) => {
                    element.alt(TextStr(says));
                }
                Tag::ColumnHead | Tag::RowHead => {
                    let scope = match one.tag {
                        Tag::ColumnHead => TableHeaderScope::Column,
                        _ => TableHeaderScope::Row,
                    };
                    element.attributes().push().table().scope(scope);
                }
                _ => {}
            }
            let mut kids = element.children();
            for kid in &one.kids {
                match kid {
                    Kid::Node(at) => {
                        kids.struct_element(node(*at));
                    }
                    Kid::Mark { page: on, number } => {
                        kids.marked_content_ref()
                            .page(page(*on))
                            .marked_content_id(*number);
                    }
                }
            }
        }
    }

    pub(super) fn pages(&self) -> usize {
        self.pages.len()
    }
}
