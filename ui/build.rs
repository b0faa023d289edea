//! Compiles the screens when the `slint` feature is on.

#[cfg(feature = "slint")]
fn main() -> Result<(), slint_build::CompileError> {
    // Ids of elements are for tests; a release has none.
    let debug = std::env::var("PROFILE").is_ok_and(|profile| profile != "release");
    let config = slint_build::CompilerConfiguration::new()
        .embed_resources(slint_build::EmbedResourcesKind::EmbedFiles)
        .with_debug_info(debug);
    slint_build::compile_with_config("slint/main.slint", config)
}

#[cfg(not(feature = "slint"))]
fn main() {}
