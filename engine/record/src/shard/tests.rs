//! Shards of any cut give back the blocks that went in.

use bytes::Bytes;
use proptest::prelude::*;

use super::*;
use crate::games::tests::{played, three_hundred};
use crate::{ArmFault, Keep, Plan, Played, StoppedArm};

fn write(plan: &Plan, blocks: std::ops::Range<usize>, all: &[Played]) -> (ShardName, Vec<u8>) {
    let mut writer = ShardWriter::begin(plan, blocks.clone(), Vec::new()).unwrap();
    all[blocks].iter().for_each(|played| writer.keep(played).unwrap());
    let (bytes, name) = writer.finish().unwrap();
    (name, bytes)
}

fn read(plan: &Plan, bytes: Vec<u8>) -> Vec<Played> {
    let mut back = Vec::new();
    let shard = Shard::open(Bytes::from(bytes)).unwrap();
    assert_eq!(shard.plan().unwrap(), plan.digest());
    shard
        .each(plan, &plan.blocks(plan.rounds()), &mut |played| {
            back.push(played);
            Ok(())
        })
        .unwrap();
    back
}

/// Three hundred games with an arm that stops in one block and has no games in later ones.
fn with_a_fault(plan: &Plan) -> Vec<Played> {
    let mut all = played(plan);
    let fault = ArmFault { arm: 1, message: "late".into(), ticket: "rs1".into() };
    all[5].faults.push(StoppedArm { place: plan.place(0, 140), fault });
    all[5].games.retain(|row| row.arm == 0 || row.game < 140);
    all[6..].iter_mut().for_each(|played| played.games.retain(|row| row.arm == 0));
    all
}

#[test]
fn any_cut_gives_the_blocks_back() {
    let plan = three_hundred();
    for all in [played(&plan), with_a_fault(&plan)] {
        for n in [1, 2, 3, 8] {
            let parts = (0..n).map(|k| share(k, n, all.len()));
            let back = parts.flat_map(|blocks| read(&plan, write(&plan, blocks, &all).1));
            assert!(back.eq(all.iter().cloned()), "{n} shards");
        }
    }
}

#[test]
fn a_shard_is_named_by_its_blocks_and_bytes() {
    let plan = three_hundred();
    let all = played(&plan);
    let (name, bytes) = write(&plan, 2..5, &all);
    assert_eq!(name.blocks(), 2..5);
    assert!(name.fits(&bytes[..]).unwrap());
    assert_eq!(write(&plan, 2..5, &all), (name.clone(), bytes), "the same bytes again");
    let mut other = all.clone();
    other[3].games[7].digest ^= 1;
    assert_ne!(write(&plan, 2..5, &other).0, name);
}

#[test]
fn a_shard_that_is_not_played_out_has_no_name() {
    let plan = three_hundred();
    let mut writer = ShardWriter::begin(&plan, 0..3, Vec::new()).unwrap();
    writer.keep(&played(&plan)[0]).unwrap();
    let error = writer.finish().map(|_| ()).unwrap_err();
    assert_eq!(error.to_string(), "blocks 1 to 3 were not played");
}

#[test]
fn games_of_other_blocks_are_refused() {
    let plan = three_hundred();
    let all = played(&plan);
    let mut writer = ShardWriter::begin(&plan, 0..2, Vec::new()).unwrap();
    writer.keep(&all[1]).unwrap();
    writer.keep(&all[0]).unwrap();
    let shard = Shard::open(Bytes::from(writer.finish().unwrap().0)).unwrap();
    let error =
        shard.each(&plan, &plan.blocks(plan.rounds()), &mut |_| Ok(())).unwrap_err().to_string();
    assert!(error.contains("games of no block of its own"), "{error}");
    let mut writer = ShardWriter::begin(&plan, 0..1, Vec::new()).unwrap();
    let mut holed = all[0].clone();
    holed.games.remove(3);
    writer.keep(&holed).unwrap();
    let shard = Shard::open(Bytes::from(writer.finish().unwrap().0)).unwrap();
    let error =
        shard.each(&plan, &plan.blocks(plan.rounds()), &mut |_| Ok(())).unwrap_err().to_string();
    assert_eq!(error, "games of block 0 are missing");
}

proptest! {
    /// Whatever bit is changed and wherever the file is cut, the bytes no longer fit the name.
    #[test]
    fn damage_never_fits_the_name(place in any::<prop::sample::Index>(), bit in 0..8_u32) {
        let plan = Plan { games_per_arm: 4, ..three_hundred() };
        let (name, bytes) = write(&plan, 0..1, &played(&plan));
        let place = place.index(bytes.len());
        let mut changed = bytes.clone();
        changed[place] ^= 1 << bit;
        let fits = |bytes: &[u8]| name.fits(bytes).unwrap();
        prop_assert!(fits(&bytes) && !fits(&changed) && !fits(&bytes[..place]));
    }
}
