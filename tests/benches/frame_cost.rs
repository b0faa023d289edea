//! Does what happens often on a phone of 1080 by 2400, for a tool that counts instructions: `bash tests/cost`.
//!
//! Run by itself it prints the pixels and frames of each thing. `frame_cost 200` asks for text of that size.

#[path = "../tests/phone/device.rs"]
#[allow(dead_code)]
mod device;
#[path = "../tests/phone/often.rs"]
mod often;
#[path = "../tests/layout/tree.rs"]
#[allow(dead_code)]
mod tree;

use device::Device;
use hearthdose_tests::kitchen::World;

/// Counting begins and ends with this function, which is found by its name.
#[inline(never)]
fn counted(device: &mut Device, doing: &mut dyn FnMut(&mut Device)) {
    doing(device);
}

fn main() {
    // Cargo's own arguments are no numbers.
    let text = std::env::args().find_map(|text| text.parse().ok());
    let world = World::new("frame-cost");
    let mut device = Device::new(often::SIZE, often::SCALE);
    device.text(text.unwrap_or(100));
    often::all(&mut device, &world, &mut |name, device, doing| {
        device.shown();
        let before = device.phone.pixels_drawn();
        counted(device, doing);
        let pixels = device.phone.pixels_drawn() - before;
        println!("{pixels}\t{}\t{name}", device.shown().len());
    });
}
