//! Damaged files that the program itself has written: what is kept of a run, and shards. Whatever is done to
//! them, games that are read are games that were played.

use std::io;
use std::sync::{Arc, Mutex};

use ruleshift_record::{Games, Keep, Log, Plan, Played, Shard, ShardWriter, Store};

use super::damage::{Draws, damaged};
use super::{bounded, times};
use crate::support::Run;

/// Damaged files of each kind.
const EACH: u32 = 1_500;

/// Bytes that a log grows in, which can be taken out again.
#[derive(Clone, Default)]
struct Bytes(Arc<Mutex<Vec<u8>>>);

impl Store for Bytes {
    fn read_at(&self, offset: u64, bytes: &mut [u8]) -> io::Result<()> {
        let all = self.0.lock().unwrap();
        let from = usize::try_from(offset).ok().and_then(|offset| all.get(offset..));
        let from = from.and_then(|rest| rest.get(..bytes.len()));
        bytes.copy_from_slice(from.ok_or(io::ErrorKind::UnexpectedEof)?);
        Ok(())
    }

    fn append(&mut self, bytes: &[u8]) -> io::Result<()> {
        self.0.lock().unwrap().extend(bytes);
        Ok(())
    }

    fn cut(&mut self, length: u64) -> io::Result<()> {
        self.0.lock().unwrap().truncate(length as usize);
        Ok(())
    }
}

/// A plan and what was played of it, block by block.
fn played() -> (Plan, Vec<Played>) {
    let run = Run::fine("no-late-fire --scenario first-evening --players steady,bold --games 12");
    let (plan, games) = (run.plan(), run.games());
    let block = |block: ruleshift_record::Block| {
        let own = games.iter().filter(|row| block.has(row.scenario, row.game));
        Played { games: own.cloned().collect(), faults: vec![] }
    };
    let blocks = plan.blocks(plan.rounds()).into_iter().map(block).collect();
    (plan, blocks)
}

/// What is kept after damage is a beginning of what was kept before.
#[test]
fn what_is_kept_of_a_run() {
    let (plan, blocks) = played();
    let sound = Bytes::default();
    let mut log = Log::begin(&plan, Box::new(sound.clone())).unwrap();
    blocks.iter().for_each(|played| Keep::keep(&mut log, played).unwrap());
    let sound = sound.0.lock().unwrap().clone();
    let (mut whole, mut refused, mut shorter) = (0, 0, 0);
    for input in 0..times(EACH) {
        let bytes = damaged(&sound, &mut Draws::new(77, input));
        let store = Bytes(Arc::new(Mutex::new(bytes.clone())));
        let (plan_again, length) = (plan.clone(), bytes.len() as u64);
        let opened = bounded(&format!("kept games {input}"), move || {
            Log::open(&plan_again, Box::new(store), length)
        });
        match opened {
            Err(error) => {
                assert!(error.to_string().contains("another plan or version"), "{error}");
                refused += 1;
            }
            Ok(log) => {
                let kept = log.kept();
                let first = blocks[..kept].iter().flat_map(|played| played.games.clone());
                let expected = Games::from(first.collect::<Vec<_>>());
                assert_eq!(Games::from(log).rows(), expected.rows(), "input {input}");
                whole += u32::from(kept == blocks.len());
                shorter += u32::from(kept < blocks.len());
            }
        }
    }
    assert!(shorter > 0 && refused + whole > 0, "{whole} {refused} {shorter}");
}

/// A shard whose bytes are others is never opened.
#[test]
fn shards() {
    let (plan, blocks) = played();
    let mut writer = ShardWriter::begin(&plan, 0..blocks.len(), Vec::new()).unwrap();
    blocks.iter().for_each(|played| writer.keep(played).unwrap());
    let (sound, name) = writer.finish().unwrap();
    let fits = |bytes: &[u8]| name.fits(bytes).unwrap();
    assert!(fits(&sound));
    let mut others = 0;
    for input in 0..times(EACH) {
        let bytes = damaged(&sound, &mut Draws::new(78, input));
        assert_eq!(fits(&bytes), bytes == sound, "input {input}");
        others += u32::from(bytes != sound);
    }
    assert!(others > times(EACH) / 2, "{others} were damaged at all");
    // Sound bytes under a sound name are opened, and hold what was played.
    let file = tempfile::NamedTempFile::new().unwrap();
    std::fs::write(file.path(), &sound).unwrap();
    let shard = Shard::open(std::fs::File::open(file.path()).unwrap()).unwrap();
    let mut back = Vec::new();
    shard
        .each(&plan, &plan.blocks(plan.rounds()), &mut |played| {
            back.push(played);
            Ok(())
        })
        .unwrap();
    assert_eq!(back, blocks);
}
