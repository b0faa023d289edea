//! Settings: they are the device's, come back after a restart, and are read as far as they can be.

use std::fs;

use hearthdose_tests::kitchen::{World, press, pressable, title};
use hearthdose_ui::machine::files::Files;
use hearthdose_ui::vm::Kitchen;
use hearthdose_ui::vm::ports::Records;
use hearthdose_ui::vm::view::{Block, Intent, Screen, View};

/// The program as it starts for people: nobody asks for a language.
fn start(world: &World) -> Kitchen {
    Kitchen::open(
        Box::new(world.clone()),
        Box::new(world.clone()),
        Box::new(world.clone()),
        None,
    )
}

/// The choices that are marked as chosen.
fn chosen(view: &View) -> Vec<String> {
    let Screen::Reading(reading) = &view.screen else {
        panic!("not the settings: {:?}", view.screen);
    };
    let options = reading.blocks.iter().filter_map(|block| match block {
        Block::Choice { options, .. } => Some(options),
        _ => None,
    });
    let here = options.flatten().filter(|option| option.here);
    here.map(|option| option.id.clone()).collect()
}

const OTHERS: [&str; 7] = [
    "language:es",
    "size:150",
    "dark:yes",
    "contrast:yes",
    "still:yes",
    "sound:no",
    "flash:no",
];

#[test]
fn what_is_chosen_comes_back_after_a_restart_without_any_record() {
    let world = World::new("settings-kept");
    let mut kitchen = start(&world);
    press(&mut kitchen, "settings");
    let usual = [
        "language:en",
        "size:100",
        "dark:no",
        "contrast:no",
        "still:no",
        "sound:yes",
        "flash:yes",
    ];
    assert_eq!(chosen(&kitchen.view()), usual);
    for id in OTHERS {
        press(&mut kitchen, id);
    }
    drop(kitchen);
    let mut kitchen = start(&world);
    let first = kitchen.view();
    assert_eq!(title(&first), "¿Qué quiere hacer?");
    assert_eq!((first.scale, first.dark, first.contrast), (150, true, true));
    press(&mut kitchen, "settings");
    assert_eq!(chosen(&kitchen.view()), OTHERS);
}

/// They are the device's: at a site as at home.
#[test]
fn a_site_has_the_same_settings() {
    let world = World::new("settings-site");
    let mut kitchen = start(&world);
    press(&mut kitchen, "settings");
    press(&mut kitchen, "contrast:yes");
    kitchen.take(&Intent::Back);
    press(&mut kitchen, "work-at-site");
    assert!(kitchen.view().contrast);
    kitchen.take(&Intent::Press {
        id: "settings".to_owned(),
    });
    kitchen.take(&Intent::Press {
        id: "size:200".to_owned(),
    });
    assert_eq!(chosen(&kitchen.view())[1], "size:200");
    drop(kitchen);
    assert_eq!(start(&world).view().scale, 200);
}

#[test]
fn damage_is_told_once_and_the_rest_is_used() {
    let world = World::new("settings-damaged");
    let text = "hearthdose settings 1\nsize 9000\ndark yes\n";
    fs::write(world.folder().join("settings"), text).expect("a file");
    let mut kitchen = start(&world);
    assert_eq!(title(&kitchen.view()), "Some settings were lost");
    let view = kitchen.view();
    assert_eq!((view.scale, view.dark), (100, true));
    press(&mut kitchen, "told");
    assert_eq!(title(&kitchen.view()), "What do you want to do?");
    drop(kitchen);
    let again = start(&world).view();
    assert_eq!(title(&again), "What do you want to do?");
    assert!(again.dark);
}

/// Bytes that are no text, and more of them than settings have, harm nothing.
#[test]
fn any_file_in_their_place_is_survived() {
    let world = World::new("settings-bytes");
    for bytes in [
        vec![0xFF; 5_000_000],
        b"hearthdose settings 1\n".repeat(900),
    ] {
        fs::write(world.folder().join("settings"), bytes).expect("a file");
        assert_eq!(title(&start(&world).view()), "Some settings were lost");
    }
}

/// The record of an earlier version had them; a device without settings of its own takes them over.
#[test]
fn what_an_earlier_version_kept_in_a_record_is_taken_over() {
    let world = World::new("settings-record");
    let mut kitchen = start(&world);
    press(&mut kitchen, "practise");
    drop(kitchen);
    let (mut store, _) = world
        .open(hearthdose_ui::vm::ports::Shelf::Practice)
        .expect("the record");
    for (name, value) in [("language", "es"), ("dark", "yes"), ("scale", "125")] {
        store.set_setting(name, value).expect("kept");
    }
    drop(store);
    let mut kitchen = start(&world);
    let view = kitchen.view();
    assert_eq!((view.scale, view.dark), (125, true));
    assert_eq!(view.back_word, "Atrás");
    // From the first choice on the device's own settings rule.
    press(&mut kitchen, "help");
    press(&mut kitchen, "language");
    drop(kitchen);
    assert_eq!(start(&world).view().back_word, "Back");
}

#[test]
fn where_they_cannot_be_kept_it_is_told_once_and_they_hold() {
    let world = World::new("settings-unkept");
    let mut kitchen = start(&world);
    // A folder in its place takes no file.
    fs::create_dir(world.folder().join("settings")).expect("a folder");
    press(&mut kitchen, "settings");
    press(&mut kitchen, "dark:yes");
    assert_eq!(title(&kitchen.view()), "This choice was not kept");
    press(&mut kitchen, "told");
    press(&mut kitchen, "size:125");
    assert_eq!(title(&kitchen.view()), "Settings");
    assert_eq!((kitchen.view().scale, kitchen.view().dark), (125, true));
}

#[test]
fn a_piece_that_is_missing_is_named_with_another_way() {
    let world = World::new("settings-pieces");
    let mut kitchen = start(&world);
    press(&mut kitchen, "settings");
    let Screen::Reading(reading) = kitchen.view().screen else {
        panic!("not the settings");
    };
    let items: Vec<(String, String)> = reading
        .blocks
        .into_iter()
        .filter_map(|block| match block {
            Block::Item { words, detail, .. } => Some((words, detail)),
            _ => None,
        })
        .collect();
    let names: Vec<&str> = items.iter().map(|(words, _)| words.as_str()).collect();
    assert_eq!(
        names,
        [
            "No voice",
            "No sound",
            "No messages",
            "No camera",
            "No screen reader"
        ]
    );
    assert!(items.iter().all(|(_, instead)| !instead.is_empty()));
}

/// The file lies in the folder of the records, under one name, and no draft stays beside it.
#[test]
fn the_program_keeps_one_small_file() {
    let world = World::new("settings-file");
    let folder = world.folder().join("new");
    let files = Files {
        folder: folder.clone(),
    };
    assert_eq!(files.settings(), None);
    assert!(files.keep_settings("one\n") && files.keep_settings("two\n"));
    assert_eq!(files.settings().as_deref(), Some("two\n"));
    let names: Vec<_> = fs::read_dir(&folder)
        .expect("the folder")
        .map(|entry| entry.expect("a file").file_name())
        .collect();
    assert_eq!(names, ["settings"]);
    assert!(!pressable(&start(&world).view()).is_empty());
}
