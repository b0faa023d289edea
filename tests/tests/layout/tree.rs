//! What stands where in the window: every text and every control, as the layout placed them with the real fonts.
//!
//! It walks the items that are drawn, so nothing has to be named for it and nothing can be left out.

use std::rc::Rc;

use i_slint_core::accessibility::{AccessibleStringProperty, SupportedAccessibilityAction};
use i_slint_core::item_tree::ItemRc;
use i_slint_core::items::{
    AccessibleRole, Clip, ComplexText, Flickable, FocusScope, SimpleText, TextInput, TextWrap,
};
use i_slint_core::layout::Orientation;
use i_slint_core::window::{WindowAdapter, WindowInner};
use slint::ComponentHandle;

/// A rectangle in logical pixels of the window.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Place {
    pub left: f32,
    pub top: f32,
    pub right: f32,
    pub bottom: f32,
}

impl Place {
    pub fn width(self) -> f32 {
        self.right - self.left
    }

    pub fn height(self) -> f32 {
        self.bottom - self.top
    }

    pub fn within(self, other: Place) -> Place {
        Place {
            left: self.left.max(other.left),
            top: self.top.max(other.top),
            right: self.right.min(other.right),
            bottom: self.bottom.min(other.bottom),
        }
    }
}

/// Where a thing may be seen.
#[derive(Clone, Copy, Debug)]
pub struct Bounds {
    /// What cuts it off: of a scroll area, what is seen of it at rest.
    pub seen: Place,
    /// The scroll area it moves with, by number.
    pub scroll: Option<usize>,
}

#[derive(Clone, Debug)]
pub struct Text {
    pub words: String,
    pub place: Place,
    /// Height of all its lines at the width it has.
    pub height_needed: f32,
    /// Width of its longest word, or of the whole line where it does not wrap.
    pub width_needed: f32,
    pub bounds: Bounds,
    /// The control it belongs to.
    pub control: Option<usize>,
}

#[derive(Clone, Debug)]
pub struct Control {
    pub name: String,
    pub enabled: bool,
    pub place: Place,
    pub bounds: Bounds,
    pub within: Option<usize>,
}

#[derive(Default)]
pub struct Window {
    pub texts: Vec<Text>,
    pub controls: Vec<Control>,
    /// What has the keyboard and shows it, by name.
    pub focused: Vec<String>,
    scrolls: usize,
}

/// Lets layouts, repeated elements and what follows from sizes settle, without drawing.
pub fn settle(window: &impl ComponentHandle) {
    let inner = WindowInner::from_pub(window.window());
    for _ in 0..4 {
        slint::platform::update_timers_and_animations();
        inner.ensure_tree_instantiated();
    }
}

/// Reads the whole window.
pub fn read(window: &impl ComponentHandle) -> Window {
    let inner = WindowInner::from_pub(window.window());
    let adapter = inner.window_adapter();
    let root = ItemRc::new_root(inner.component());
    let all = place_of(&root);
    let mut found = Window::default();
    let bounds = Bounds {
        seen: all,
        scroll: None,
    };
    found.visit(&root, bounds, None, &adapter);
    found
}

impl Window {
    fn visit(
        &mut self,
        item: &ItemRc,
        bounds: Bounds,
        control: Option<usize>,
        adapter: &Rc<dyn WindowAdapter>,
    ) {
        let mut bounds = bounds;
        if let Some(clip) = item.downcast::<Clip>() {
            let clip = clip.as_pin_ref();
            if clip.is_visibility_clip() {
                if clip.clip() {
                    return;
                }
            } else if clip.clip() {
                bounds.seen = bounds.seen.within(place_of(item));
            }
        }
        let mut control = control;
        if let Some(name) = control_name(item) {
            self.controls.push(Control {
                name,
                enabled: property(item, AccessibleStringProperty::Enabled) != "false",
                place: place_of(item),
                bounds,
                within: control,
            });
            control = Some(self.controls.len() - 1);
        }
        if let Some(text) = text_of(item, bounds, control, adapter) {
            self.texts.push(text);
        }
        if has_keyboard(item) {
            let name = control.and_then(|at| self.controls.get(at));
            self.focused
                .push(name.map_or_else(String::new, |control| control.name.clone()));
        }
        if item.downcast::<Flickable>().is_some() {
            self.scrolls += 1;
            bounds = Bounds {
                seen: bounds.seen.within(place_of(item)),
                scroll: Some(self.scrolls),
            };
        }
        let mut child = item.first_child();
        while let Some(item) = child {
            self.visit(&item, bounds, control, adapter);
            child = item.next_sibling();
        }
    }
}

fn place_of(item: &ItemRc) -> Place {
    let geometry = item.geometry();
    let origin = item.map_to_window(geometry.origin);
    Place {
        left: origin.x,
        top: origin.y,
        right: origin.x + geometry.size.width,
        bottom: origin.y + geometry.size.height,
    }
}

/// The name of something a person can press or type into.
fn control_name(item: &ItemRc) -> Option<String> {
    if !item.is_accessible() {
        return None;
    }
    let typed = item.accessible_role() == AccessibleRole::TextInput;
    let pressed = item
        .supported_accessibility_actions()
        .contains(SupportedAccessibilityAction::Default);
    (typed || pressed).then(|| property(item, AccessibleStringProperty::Label))
}

fn property(item: &ItemRc, which: AccessibleStringProperty) -> String {
    let value = item.accessible_string_property(which);
    value.unwrap_or_default().to_string()
}

fn text_of(
    item: &ItemRc,
    bounds: Bounds,
    control: Option<usize>,
    adapter: &Rc<dyn WindowAdapter>,
) -> Option<Text> {
    let (words, wraps) = if let Some(text) = item.downcast::<ComplexText>() {
        let text = text.as_pin_ref();
        (text.text(), text.wrap() != TextWrap::NoWrap)
    } else {
        let text = item.downcast::<SimpleText>()?;
        (text.as_pin_ref().text(), false)
    };
    if words.is_empty() {
        return None;
    }
    let place = place_of(item);
    let borrowed = item.borrow();
    let info = |orientation, across| {
        borrowed
            .as_ref()
            .layout_info(orientation, across, adapter, item)
    };
    let across = info(Orientation::Horizontal, -1.0);
    Some(Text {
        words: words.to_string(),
        place,
        height_needed: info(Orientation::Vertical, place.width()).preferred,
        width_needed: if wraps { across.min } else { across.preferred },
        bounds,
        control,
    })
}

fn has_keyboard(item: &ItemRc) -> bool {
    if let Some(scope) = item.downcast::<FocusScope>() {
        let scope = scope.as_pin_ref();
        // The scope around the whole window takes keys for the pad and shows nothing.
        return scope.has_focus() && scope.focus_on_tab_navigation();
    }
    item.downcast::<TextInput>()
        .is_some_and(|input| input.as_pin_ref().has_focus())
}
