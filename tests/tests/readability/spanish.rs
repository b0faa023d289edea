//! Spanish: perspicuity after Szigriszt, read on the scale INFLESZ, and how many syllables a word has.
//!
//! Szigriszt Pazos F: Sistemas predictivos de legibilidad del mensaje escrito. Universidad Complutense de Madrid, 1993.
//! Barrio-Cantalejo IM and others: Validación de la escala INFLESZ. Anales del Sistema Sanitario de Navarra 2008;31:135–152:
//! 55 to 65 normal, 65 to 80 fairly easy (primary school, which ends with grade 6), above 80 very easy.

use super::said::Count;

/// 206.835 − 62.3 syllables a word − words a sentence; higher is easier.
pub fn ease(count: Count) -> f64 {
    206.835 - 62.3 * count.syllables_a_word() - count.words_a_sentence()
}

/// Vowels that sound: two stand in one syllable unless both are strong or a weak one has the accent.
pub fn syllables(word: &str) -> usize {
    let letters: Vec<char> = word.to_lowercase().chars().collect();
    let mut count = 0_usize;
    let mut last: Option<char> = None;
    for (at, letter) in letters.iter().enumerate() {
        let before = at.checked_sub(1).and_then(|at| letters.get(at)).copied();
        let after = letters.get(at + 1).copied();
        // "que", "guerra": the u is not heard.
        let mute = *letter == 'u'
            && (before == Some('q')
                || before == Some('g') && after.is_some_and(|next| "eiéí".contains(next)));
        let end = after.is_none();
        let vowel = "aeiouáéíóúü".contains(*letter) || *letter == 'y' && end;
        if !vowel || mute {
            last = None;
            continue;
        }
        let weak = |sound: char| "iuüy".contains(sound);
        let joined = last.is_some_and(|last| {
            let accented = |sound: char| "íú".contains(sound);
            (weak(last) || weak(*letter)) && !accented(last) && !accented(*letter)
        });
        count += usize::from(!joined);
        last = Some(*letter);
    }
    count.max(1)
}

#[test]
fn syllables_of_words_counted_by_hand() {
    for (word, count) in [
        ("que", 1),
        ("hoy", 1),
        ("bien", 1),
        ("no", 1),
        ("dé", 1),
        ("y", 1),
        ("agua", 2),
        ("tazón", 2),
        ("dosis", 2),
        ("jugo", 2),
        ("leche", 2),
        ("cuarto", 2),
        ("guíe", 2),
        ("oír", 2),
        ("día", 2),
        ("toalla", 3),
        ("pastilla", 3),
        ("pedazo", 3),
        ("siguiente", 3),
        ("jeringa", 3),
        ("todavía", 4),
        ("medicina", 4),
        ("cucharadita", 5),
        ("enfermera", 4),
        ("refrigerador", 5),
        ("revuelva", 3),
        ("pequeño", 3),
        ("ahora", 3),
        ("aplaste", 3),
        ("alérgica", 4),
        ("instrucciones", 4),
        ("inventada", 4),
        ("reacción", 3),
        ("muy", 1),
        ("línea", 3),
    ] {
        assert_eq!(syllables(word), count, "{word}");
    }
}

/// "La sal es de mar." has five words of one syllable: 206.835 − 62.3 − 5 = 139.535.
#[test]
fn an_ease_worked_out_by_hand() {
    let count = Count {
        sentences: 1,
        words: 5,
        syllables: 5,
    };
    assert!((ease(count) - 139.535).abs() < 0.001);
}
