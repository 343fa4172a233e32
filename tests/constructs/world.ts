/** What the constructs' texts may name: a small catalogue, and a boat with one or two of everything. All invented. */

const GEAR = `
family Tern "Coastal displays"
family Skua "Bridge displays"

model Tern13 : display {
  title "13-inch display"
  families Tern
  port net1, net2 : ethernet sealed
  port sonar      : transducer accepts hd output 600 W
  port n2k        : nmea2000 len 2
  port listen     : nmea0183 listens 4800 differential
  port power      : dc in 10..32 V draws 1.4 A fuse 5 A
  shows  chart, sonar, radar, video
  shares chart, sonar
  bridges ethernet
}
model Tern8 : display {
  families Tern
  port net   : ethernet sealed
  port n2k   : nmea2000 len 1
  port power : dc in 10..32 V draws 0.9 A fuse 5 A
  shows chart, sonar, radar, video
}
model BeamHD : transducer {
  port plug : transducer captive 9 m od 7 mm head 22 mm
  gives sonar.side hd, sonar.down hd
  band 455 kHz  takes 600 W
}
model LiveBox : sonar {
  families Tern
  port net   : ethernet sealed
  port head  : transducer accepts hd output 500 W
  port power : dc in 10..32 V draws 1 A fuse 3 A
  shares sonar
}
model Radar18 : radar {
  families Tern
  port net   : ethernet captive 10 m
  port power : dc in 10..32 V draws 1.5 A fuse 5 A
  gives radar
}
model Switch5 : switch {
  port 1..5  : ethernet sealed
  port power : dc in 10..32 V draws 0.3 A fuse 2 A
  bridges ethernet
}
model Gnss10 : gnss { port n2k : nmea2000 len 1  gives position at 10 Hz }
model Vhf25 : radio {
  port antenna : coax vhf
  port listen  : nmea0183 listens 4800 differential
  port n2k     : nmea2000 len 1
  port power   : dc in 11..16 V draws 0.4 A max 5.5 A fuse 10 A
  wants position
}
model Whip24 : antenna { port foot : coax vhf }
model Mux4 : gateway {
  port in1, in2 : nmea0183 listens 4800 isolated
  port out      : nmea0183 talks 38400
  passes in1, in2 -> out
}
model Agm105 : battery {
  port post : dc
  voltage 12 V  charges 14.4 V  lowest 11 V
  capacity 105 Ah at 20 h  chemistry agm
}
model Panel8 : panel {
  carries 60 A
  port in   : dc in
  port 1..8 : dc out max 15 A holds blade
}
model Cutoff300 : batteryswitch { positions off, on joins a + b  carries 300 A  port a, b : dc }
model Inboard200 : engine {
  port starter : dc in cranks 350 A for 3 s
  port charge  : dc out 14.2 V limits 60 A
  port n2k     : nmea2000 len 1 terminates
  gives engine at 10 Hz
}
model Pump2 : load { kind bilgepump  port power : dc in 10..16 V draws 2 A fuse 3 A }
model DeckPlug50 : joint { carries 50 A  port a, b : dc }
model Extension3 : joint { length 3 m }
model Box4 : teebox { ports 4 }

cable SealedNet : ethernet { sealed  od 6.5 mm  stock 2 m at 39 USD, 6 m at 55 USD }
cable PatchCord : ethernet { od 6 mm }
cable MicroTrunk : nmea2000 { resistance 57 ohm per km per conductor  carries 3 A  longest 100 m  od 6 mm }
cable Coax8 : coax { od 6.1 mm }
`;

/** The head of every boat file; the vessel's block can be replaced. */
export const VESSEL = 'vessel Gull "9 m catamaran" { currency USD }';

export const BOAT = `
zone bow     exposed   aft 1 m
zone helm    sheltered aft 4 m
zone cabin   interior  aft 5 m
zone engines machinery diesel aft 7 m

run bow -- helm 5 m
run keelway : helm -- cabin 2 m
run cabin -- engines 4 m

device plotter   : Tern13     at helm
device bowScreen : Tern8      at bow
device beam      : BeamHD     at engines
device live      : LiveBox    at cabin
device hub       : Switch5    at cabin
device gnss      : Gnss10     at helm
device vhf       : Vhf25      at helm
device whip      : Whip24     at helm
device mux       : Mux4       at cabin
device house     : Agm105     at engines
device start     : Agm105     at engines
device cutoff    : Cutoff300  at engines
device panel     : Panel8     at cabin
device engine    : Inboard200 at engines
device pump      : Pump2      at engines
device dropBox   : Box4       at helm

link bowScreen -- hub.1

backbone nav using MicroTrunk {
  terminator
  tee gnss drop 1 m
  span 1 m
  tee plotter drop 1 m
  terminator
}

mode drifting { on plotter }
mode underWay { on plotter, bowScreen }
`;

/** A boat of several files, for fragments. */
export const FLEET = {
  'gear.loft': GEAR,
  'kite.loft': `use "gear.loft"\nuse "fragment.loft"\n\nvessel Kite "9 m catamaran"\n${BOAT}`,
} as const;
