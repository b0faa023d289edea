//! The way of files out of the program: into the phone's downloads, and from there to other programs.
//!
//! From level 29 on a program may put files there without a permission, and the file has an address that others may be given.
//! Before that they lie in the program's own folder that a computer and the phone's file manager see.

use std::path::PathBuf;

use android_activity::AndroidApp;
use hearthdose_ui::vm::ports::{Handing, Left, Outbox};
use jni::errors::Result;
use jni::objects::{JObject, JString, JValue};
use jni::refs::Global;
use jni::{Env, jni_sig, jni_str};

use super::{Java, start, words};
use crate::leaving::{self, media_type};

/// The folder as the phone's file manager calls it, and as the system does.
const PLACE: &str = "Downloads";
const FOLDER: &str = "Download/";
/// Gives the receiver the right to read this one file (`Intent.FLAG_GRANT_READ_URI_PERMISSION`).
const MAY_READ: i32 = 1;

pub struct Post {
    java: Java,
    /// Where files lie on older systems.
    folder: Option<PathBuf>,
    /// Address and media type of the file that was left last.
    last: Option<(Global<JObject<'static>>, &'static str)>,
}

impl Post {
    pub fn of(app: &AndroidApp, java: &Java) -> Post {
        Post {
            java: java.clone(),
            folder: app.external_data_path(),
            last: None,
        }
    }
}

impl Outbox for Post {
    fn leave(&mut self, name: &str, bytes: &[u8]) -> Option<Left> {
        self.last = None;
        let kind = media_type(name);
        let put = |env: &mut Env<'_>, activity: &JObject<'_>| {
            Downloads::of(env, activity)?.put(env, name, kind, bytes)
        };
        if let Some((address, name)) = self.java.call(put) {
            self.last = Some((address, kind));
            return Some(Left {
                name,
                place: PLACE.to_owned(),
                file: true,
            });
        }
        let folder = self.folder.as_ref()?;
        leaving::keep(folder, name, bytes).ok()?;
        Some(Left {
            name: name.to_owned(),
            place: leaving::place(folder),
            file: false,
        })
    }

    fn hand_on(&mut self, handing: Handing) -> bool {
        let Some((address, kind)) = &self.last else {
            return false;
        };
        self.java
            .call(|env, activity| match handing {
                Handing::Open => open(env, activity, address.as_ref(), kind),
                Handing::Send => send(env, activity, address.as_ref(), kind),
            })
            .is_some()
    }
}

/// The phone's downloads, as far as this program put them there.
struct Downloads<'a> {
    resolver: JObject<'a>,
    all: JObject<'a>,
}

impl<'a> Downloads<'a> {
    fn of(env: &mut Env<'a>, activity: &JObject<'_>) -> Result<Downloads<'a>> {
        // Not there before level 29.
        let all = env
            .get_static_field(
                jni_str!("android/provider/MediaStore$Downloads"),
                jni_str!("EXTERNAL_CONTENT_URI"),
                jni_sig!("Landroid/net/Uri;"),
            )?
            .l()?;
        let resolver = env
            .call_method(
                activity,
                jni_str!("getContentResolver"),
                jni_sig!("()Landroid/content/ContentResolver;"),
                &[],
            )?
            .l()?;
        Ok(Downloads { resolver, all })
    }

    /// A file in place of the one of the same name; its address, and the name it got.
    fn put(
        &self,
        env: &mut Env<'a>,
        name: &str,
        kind: &str,
        bytes: &[u8],
    ) -> Result<(Global<JObject<'static>>, String)> {
        self.remove(env, name)?;
        let about = new_values(env)?;
        put_text(env, &about, "_display_name", name)?;
        put_text(env, &about, "mime_type", kind)?;
        put_text(env, &about, "relative_path", FOLDER)?;
        // Nobody sees it before it is whole.
        put_number(env, &about, "is_pending", 1)?;
        let address = env
            .call_method(
                &self.resolver,
                jni_str!("insert"),
                jni_sig!("(Landroid/net/Uri;Landroid/content/ContentValues;)Landroid/net/Uri;"),
                &[JValue::Object(&self.all), JValue::Object(&about)],
            )?
            .l()?;
        let written = self.fill(env, &address, bytes);
        if let Err(error) = written {
            env.exception_clear();
            self.delete(env, &address, &JObject::null(), &JObject::null())?;
            return Err(error);
        }
        let name = self.name(env, &address)?.unwrap_or_else(|| name.to_owned());
        Ok((env.new_global_ref(&address)?, name))
    }

    fn fill(&self, env: &mut Env<'a>, address: &JObject<'_>, bytes: &[u8]) -> Result<()> {
        let stream = env
            .call_method(
                &self.resolver,
                jni_str!("openOutputStream"),
                jni_sig!("(Landroid/net/Uri;)Ljava/io/OutputStream;"),
                &[JValue::Object(address)],
            )?
            .l()?;
        let bytes = env.byte_array_from_slice(bytes)?;
        env.call_method(
            &stream,
            jni_str!("write"),
            jni_sig!("([B)V"),
            &[JValue::Object(&bytes)],
        )?;
        env.call_method(&stream, jni_str!("close"), jni_sig!("()V"), &[])?;
        let whole = new_values(env)?;
        put_number(env, &whole, "is_pending", 0)?;
        let nothing = JObject::null();
        env.call_method(
            &self.resolver,
            jni_str!("update"),
            jni_sig!(
                "(Landroid/net/Uri;Landroid/content/ContentValues;Ljava/lang/String;[Ljava/lang/String;)I"
            ),
            &[
                JValue::Object(address),
                JValue::Object(&whole),
                JValue::Object(&nothing),
                JValue::Object(&nothing),
            ],
        )?;
        Ok(())
    }

    /// Takes an older file of the name away; the system lets a program remove its own only.
    fn remove(&self, env: &mut Env<'a>, name: &str) -> Result<()> {
        let filter = env.new_string("_display_name=? AND relative_path=?")?;
        let values = texts(env, &[name, FOLDER])?;
        self.delete(env, &self.all, &filter, &values)
    }

    fn delete(
        &self,
        env: &mut Env<'a>,
        address: &JObject<'_>,
        filter: &JObject<'_>,
        values: &JObject<'_>,
    ) -> Result<()> {
        env.call_method(
            &self.resolver,
            jni_str!("delete"),
            jni_sig!("(Landroid/net/Uri;Ljava/lang/String;[Ljava/lang/String;)I"),
            &[
                JValue::Object(address),
                JValue::Object(filter),
                JValue::Object(values),
            ],
        )?;
        Ok(())
    }

    /// The name that the system gave; another one where the wanted name belongs to somebody else's file.
    fn name(&self, env: &mut Env<'a>, address: &JObject<'_>) -> Result<Option<String>> {
        let columns = texts(env, &["_display_name"])?;
        let nothing = JObject::null();
        let found = env
            .call_method(
                &self.resolver,
                jni_str!("query"),
                jni_sig!(
                    "(Landroid/net/Uri;[Ljava/lang/String;Ljava/lang/String;[Ljava/lang/String;Ljava/lang/String;)Landroid/database/Cursor;"
                ),
                &[
                    JValue::Object(address),
                    JValue::Object(&columns),
                    JValue::Object(&nothing),
                    JValue::Object(&nothing),
                    JValue::Object(&nothing),
                ],
            )?
            .l()?;
        if found.is_null() {
            return Ok(None);
        }
        let mut name = None;
        if env
            .call_method(&found, jni_str!("moveToFirst"), jni_sig!("()Z"), &[])?
            .z()?
        {
            let text = env
                .call_method(
                    &found,
                    jni_str!("getString"),
                    jni_sig!("(I)Ljava/lang/String;"),
                    &[JValue::Int(0)],
                )?
                .l()?;
            name = words(env, text)?;
        }
        env.call_method(&found, jni_str!("close"), jni_sig!("()V"), &[])?;
        Ok(name)
    }
}

fn texts<'a>(env: &mut Env<'a>, all: &[&str]) -> Result<JObject<'a>> {
    let length = i32::try_from(all.len()).unwrap_or_default();
    let array = env.new_object_array(length, jni_str!("java/lang/String"), JObject::null())?;
    for (at, text) in all.iter().enumerate() {
        let text = env.new_string(text)?;
        array.set_element(env, at, &text)?;
    }
    Ok(array.into())
}

fn new_values<'a>(env: &mut Env<'a>) -> Result<JObject<'a>> {
    env.new_object(
        jni_str!("android/content/ContentValues"),
        jni_sig!("()V"),
        &[],
    )
}

fn put_text(env: &mut Env<'_>, values: &JObject<'_>, name: &str, text: &str) -> Result<()> {
    let (name, text) = (env.new_string(name)?, env.new_string(text)?);
    env.call_method(
        values,
        jni_str!("put"),
        jni_sig!("(Ljava/lang/String;Ljava/lang/String;)V"),
        &[JValue::Object(&name), JValue::Object(&text)],
    )?;
    Ok(())
}

fn put_number(env: &mut Env<'_>, values: &JObject<'_>, name: &str, number: i32) -> Result<()> {
    let name = env.new_string(name)?;
    let number = env
        .call_static_method(
            jni_str!("java/lang/Integer"),
            jni_str!("valueOf"),
            jni_sig!("(I)Ljava/lang/Integer;"),
            &[JValue::Int(number)],
        )?
        .l()?;
    env.call_method(
        values,
        jni_str!("put"),
        jni_sig!("(Ljava/lang/String;Ljava/lang/Integer;)V"),
        &[JValue::Object(&name), JValue::Object(&number)],
    )?;
    Ok(())
}

fn intent<'a>(env: &mut Env<'a>, action: &str) -> Result<JObject<'a>> {
    let action = env.new_string(action)?;
    let intent = env.new_object(
        jni_str!("android/content/Intent"),
        jni_sig!("(Ljava/lang/String;)V"),
        &[JValue::Object(&action)],
    )?;
    env.call_method(
        &intent,
        jni_str!("addFlags"),
        jni_sig!("(I)Landroid/content/Intent;"),
        &[JValue::Int(MAY_READ)],
    )?;
    Ok(intent)
}

fn open(
    env: &mut Env<'_>,
    activity: &JObject<'_>,
    address: &JObject<'_>,
    kind: &str,
) -> Result<()> {
    let intent = intent(env, "android.intent.action.VIEW")?;
    let kind: JString<'_> = env.new_string(kind)?;
    env.call_method(
        &intent,
        jni_str!("setDataAndType"),
        jni_sig!("(Landroid/net/Uri;Ljava/lang/String;)Landroid/content/Intent;"),
        &[JValue::Object(address), JValue::Object(&kind)],
    )?;
    start(env, activity, &intent)
}

fn send(
    env: &mut Env<'_>,
    activity: &JObject<'_>,
    address: &JObject<'_>,
    kind: &str,
) -> Result<()> {
    let intent = intent(env, "android.intent.action.SEND")?;
    let kind = env.new_string(kind)?;
    env.call_method(
        &intent,
        jni_str!("setType"),
        jni_sig!("(Ljava/lang/String;)Landroid/content/Intent;"),
        &[JValue::Object(&kind)],
    )?;
    let stream = env.new_string("android.intent.extra.STREAM")?;
    env.call_method(
        &intent,
        jni_str!("putExtra"),
        jni_sig!("(Ljava/lang/String;Landroid/os/Parcelable;)Landroid/content/Intent;"),
        &[JValue::Object(&stream), JValue::Object(address)],
    )?;
    // The list of programs each time: who gets a paper with names is never a habit.
    let title = JObject::null();
    let chooser = env
        .call_static_method(
            jni_str!("android/content/Intent"),
            jni_str!("createChooser"),
            jni_sig!("(Landroid/content/Intent;Ljava/lang/CharSequence;)Landroid/content/Intent;"),
            &[JValue::Object(&intent), JValue::Object(&title)],
        )?
        .l()?;
    start(env, activity, &chooser)
}
