//! The gate: what must hold for the tree as a whole and no compiler looks at.
//!
//! Run it in the workspace root, by `cargo gate` or as `.ci/run` does.
//! It lists every problem with file and line and ends with 1 when there is one, with 2 when the tree cannot be read.

use std::process::ExitCode;

#[path = "../gate/mod.rs"]
mod gate;

fn main() -> ExitCode {
    let root = std::env::args_os().nth(1).unwrap_or_else(|| ".".into());
    let tree = match gate::tree::Tree::read(root.as_ref()) {
        Ok(tree) => tree,
        Err(cause) => {
            eprintln!("the gate cannot read the tree: {cause}");
            return ExitCode::from(2);
        }
    };
    let mut found = 0;
    for (name, check) in gate::CHECKS {
        let problems = check(&tree);
        for problem in &problems {
            println!("{name}: {problem}");
        }
        found += problems.len();
    }
    let checks = gate::CHECKS.len();
    let files = tree.len();
    if found == 0 {
        println!("gate: {checks} checks over {files} files, no problem");
        ExitCode::SUCCESS
    } else {
        println!("gate: {checks} checks over {files} files, {found} problems");
        ExitCode::FAILURE
    }
}
