//! What is asked of the activity through Java: the clock app, files that were shared, its end.
//!
//! Every call may fail, on old systems or on odd ones; then the program does without.

#[cfg(not(feature = "vendor"))]
pub mod look;
pub mod outbox;

use std::path::Path;

use android_activity::AndroidApp;
use hearthdose_ui::vm::ports::{Bell, Ring};
use jni::errors::Result;
use jni::objects::{JByteArray, JObject, JString, JValue};
use jni::refs::Global;
use jni::{Env, JavaVM, jni_sig, jni_str};

use crate::arrival::{self, Arrival};

/// The activity, for calls into it.
#[derive(Clone)]
pub struct Java {
    app: AndroidApp,
}

/// Not more than a photograph has.
const MOST_BYTES: usize = 32 * 1024 * 1024;
const PIECE: usize = 64 * 1024;

impl Java {
    pub fn of(app: &AndroidApp) -> Java {
        Java { app: app.clone() }
    }

    /// Calls with the activity; none where Java threw anything.
    fn call<T>(&self, calls: impl FnOnce(&mut Env<'_>, &JObject<'_>) -> Result<T>) -> Option<T> {
        let vm = JavaVM::singleton().ok()?;
        vm.attach_current_thread(|env| {
            let raw: jni::sys::jobject = self.app.activity_as_ptr().cast();
            // SAFETY: the reference is the activity's own global one and lives as long as `self.app`.
            #[allow(unsafe_code)]
            let activity = unsafe { env.as_cast_raw::<Global<JObject<'static>>>(&raw)? };
            let result = calls(env, activity.as_ref());
            if result.is_err() {
                env.exception_clear();
            }
            result
        })
        .ok()
    }

    /// Brings the program's first activity to the front.
    pub fn to_front(&self) {
        self.call(|env, activity| {
            let name = env
                .call_method(
                    activity,
                    jni_str!("getPackageName"),
                    jni_sig!("()Ljava/lang/String;"),
                    &[],
                )?
                .l()?;
            let packages = env
                .call_method(
                    activity,
                    jni_str!("getPackageManager"),
                    jni_sig!("()Landroid/content/pm/PackageManager;"),
                    &[],
                )?
                .l()?;
            let intent = env
                .call_method(
                    &packages,
                    jni_str!("getLaunchIntentForPackage"),
                    jni_sig!("(Ljava/lang/String;)Landroid/content/Intent;"),
                    &[JValue::Object(&name)],
                )?
                .l()?;
            start(env, activity, &intent)
        });
    }

    /// Asks the system to end this activity.
    pub fn finish(&self) {
        self.call(|env, activity| {
            env.call_method(activity, jni_str!("finish"), jni_sig!("()V"), &[])?;
            Ok(())
        });
    }

    /// Keeps a file that was shared to the program or opened with it, and forgets the request.
    pub fn take_shared(&self, folder: &Path) -> Option<Arrival> {
        let (name, kind, bytes) = self.call(shared).flatten()?;
        arrival::keep(folder, name.as_deref(), kind.as_deref(), &bytes).ok()
    }
}

impl Bell for Java {
    fn ring(&mut self, ring: &Ring) -> bool {
        self.call(|env, activity| {
            let (action, numbers, words) = match ring {
                Ring::After { seconds, words } => (
                    "android.intent.action.SET_TIMER",
                    vec![("android.intent.extra.alarm.LENGTH", *seconds)],
                    words,
                ),
                Ring::At {
                    hour,
                    minute,
                    words,
                } => (
                    "android.intent.action.SET_ALARM",
                    vec![
                        ("android.intent.extra.alarm.HOUR", i32::from(*hour)),
                        ("android.intent.extra.alarm.MINUTES", i32::from(*minute)),
                    ],
                    words,
                ),
            };
            let action = env.new_string(action)?;
            let intent = env.new_object(
                jni_str!("android/content/Intent"),
                jni_sig!("(Ljava/lang/String;)V"),
                &[JValue::Object(&action)],
            )?;
            for (name, number) in numbers {
                let name = env.new_string(name)?;
                env.call_method(
                    &intent,
                    jni_str!("putExtra"),
                    jni_sig!("(Ljava/lang/String;I)Landroid/content/Intent;"),
                    &[JValue::Object(&name), JValue::Int(number)],
                )?;
            }
            let name = env.new_string("android.intent.extra.alarm.MESSAGE")?;
            let words = env.new_string(words)?;
            env.call_method(
                &intent,
                jni_str!("putExtra"),
                jni_sig!("(Ljava/lang/String;Ljava/lang/String;)Landroid/content/Intent;"),
                &[JValue::Object(&name), JValue::Object(&words)],
            )?;
            start(env, activity, &intent)
        })
        .is_some()
    }
}

fn start(env: &mut Env<'_>, activity: &JObject<'_>, intent: &JObject<'_>) -> Result<()> {
    env.call_method(
        activity,
        jni_str!("startActivity"),
        jni_sig!("(Landroid/content/Intent;)V"),
        &[JValue::Object(intent)],
    )?;
    Ok(())
}

/// Name, media type and bytes of what the activity was started with.
type Shared = (Option<String>, Option<String>, Vec<u8>);

fn shared(env: &mut Env<'_>, activity: &JObject<'_>) -> Result<Option<Shared>> {
    let intent = env
        .call_method(
            activity,
            jni_str!("getIntent"),
            jni_sig!("()Landroid/content/Intent;"),
            &[],
        )?
        .l()?;
    if intent.is_null() {
        return Ok(None);
    }
    let mut uri = env
        .call_method(
            &intent,
            jni_str!("getData"),
            jni_sig!("()Landroid/net/Uri;"),
            &[],
        )?
        .l()?;
    if uri.is_null() {
        let key = env.new_string("android.intent.extra.STREAM")?;
        uri = env
            .call_method(
                &intent,
                jni_str!("getParcelableExtra"),
                jni_sig!("(Ljava/lang/String;)Landroid/os/Parcelable;"),
                &[JValue::Object(&key)],
            )?
            .l()?;
    }
    if uri.is_null() {
        return Ok(None);
    }
    let resolver = env
        .call_method(
            activity,
            jni_str!("getContentResolver"),
            jni_sig!("()Landroid/content/ContentResolver;"),
            &[],
        )?
        .l()?;
    let kind = env
        .call_method(
            &resolver,
            jni_str!("getType"),
            jni_sig!("(Landroid/net/Uri;)Ljava/lang/String;"),
            &[JValue::Object(&uri)],
        )?
        .l()?;
    let kind = words(env, kind)?;
    let name = env
        .call_method(
            &uri,
            jni_str!("getLastPathSegment"),
            jni_sig!("()Ljava/lang/String;"),
            &[],
        )?
        .l()?;
    let name = words(env, name)?;
    let stream = env
        .call_method(
            &resolver,
            jni_str!("openInputStream"),
            jni_sig!("(Landroid/net/Uri;)Ljava/io/InputStream;"),
            &[JValue::Object(&uri)],
        )?
        .l()?;
    if stream.is_null() {
        return Ok(None);
    }
    let bytes = read(env, &stream)?;
    // Started once more, for instance after the phone was turned, it must not come in twice.
    let nothing = env.new_object(jni_str!("android/content/Intent"), jni_sig!("()V"), &[])?;
    env.call_method(
        activity,
        jni_str!("setIntent"),
        jni_sig!("(Landroid/content/Intent;)V"),
        &[JValue::Object(&nothing)],
    )?;
    Ok(bytes.map(|bytes| (name, kind, bytes)))
}

/// The whole stream; none where it is larger than anything the program takes.
fn read(env: &mut Env<'_>, stream: &JObject<'_>) -> Result<Option<Vec<u8>>> {
    let piece = JByteArray::new(env, PIECE)?;
    let mut all = Vec::new();
    let mut signed = vec![0; PIECE];
    loop {
        let length = env
            .call_method(
                stream,
                jni_str!("read"),
                jni_sig!("([B)I"),
                &[JValue::Object(&piece)],
            )?
            .i()?;
        let Ok(length) = usize::try_from(length) else {
            break;
        };
        let part = signed.get_mut(..length.min(PIECE)).unwrap_or_default();
        piece.get_region(env, 0, part)?;
        all.extend(part.iter().map(|byte| byte.cast_unsigned()));
        if all.len() > MOST_BYTES {
            return Ok(None);
        }
    }
    env.call_method(stream, jni_str!("close"), jni_sig!("()V"), &[])?;
    Ok(Some(all))
}

fn words(env: &mut Env<'_>, object: JObject<'_>) -> Result<Option<String>> {
    if object.is_null() {
        return Ok(None);
    }
    let string = env.cast_local::<JString>(object)?;
    Ok(Some(string.try_to_string(env)?))
}
