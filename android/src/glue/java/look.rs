//! What only Java knows of the look: edges under bars and the keyboard, and the size of text.

use jni::errors::Result;
use jni::objects::JObject;
use jni::{Env, jni_sig, jni_str};

use super::Java;
use crate::arrival;
use crate::phone::Insets;

/// The answer.
pub struct Asked {
    pub insets: Insets,
    /// Size of text in percent.
    pub text: u16,
}

impl Default for Asked {
    fn default() -> Asked {
        Asked {
            insets: Insets::default(),
            text: 100,
        }
    }
}

impl Java {
    /// Edges under bars, cutouts and the soft keyboard, and the system's size of text.
    pub fn look(&self) -> Option<Asked> {
        self.call(|env, activity| {
            Ok(Asked {
                insets: insets(env, activity)?,
                text: text_percent(env, activity)?,
            })
        })
    }
}

fn insets(env: &mut Env<'_>, activity: &JObject<'_>) -> Result<Insets> {
    let window = env
        .call_method(
            activity,
            jni_str!("getWindow"),
            jni_sig!("()Landroid/view/Window;"),
            &[],
        )?
        .l()?;
    let decor = env
        .call_method(
            &window,
            jni_str!("getDecorView"),
            jni_sig!("()Landroid/view/View;"),
            &[],
        )?
        .l()?;
    let insets = env
        .call_method(
            &decor,
            jni_str!("getRootWindowInsets"),
            jni_sig!("()Landroid/view/WindowInsets;"),
            &[],
        )?
        .l()?;
    if insets.is_null() {
        return Ok(Insets::default());
    }
    // Newer calls tell bars, cutouts and keyboard apart; this one tells their sum on every version.
    let mut edge = |name: &'static jni::strings::JNIStr| -> Result<u32> {
        let pixels = env.call_method(&insets, name, jni_sig!("()I"), &[])?.i()?;
        Ok(u32::try_from(pixels).unwrap_or_default())
    };
    Ok(Insets {
        top: edge(jni_str!("getSystemWindowInsetTop"))?,
        bottom: edge(jni_str!("getSystemWindowInsetBottom"))?,
        left: edge(jni_str!("getSystemWindowInsetLeft"))?,
        right: edge(jni_str!("getSystemWindowInsetRight"))?,
    })
}

fn text_percent(env: &mut Env<'_>, activity: &JObject<'_>) -> Result<u16> {
    let resources = env
        .call_method(
            activity,
            jni_str!("getResources"),
            jni_sig!("()Landroid/content/res/Resources;"),
            &[],
        )?
        .l()?;
    let configuration = env
        .call_method(
            &resources,
            jni_str!("getConfiguration"),
            jni_sig!("()Landroid/content/res/Configuration;"),
            &[],
        )?
        .l()?;
    let scale = env
        .get_field(&configuration, jni_str!("fontScale"), jni_sig!("F"))?
        .f()?;
    Ok(arrival::percent(scale))
}
