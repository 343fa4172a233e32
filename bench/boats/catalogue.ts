/** The catalogue that every generated boat uses. All of it is invented. */

/**
 * Families of displays. A segment has one of them; boats with more segments than families go on with displays of no family,
 * since two segments of one family would each lack what the other shows.
 */
export const FAMILIES = ['Petrel', 'Avocet', 'Dotterel', 'Sanderling'] as const;

/** The prefix of models that belong to no family. */
export const OPEN = 'Open';

export function catalogueText(): string {
  return [GENERAL, ...FAMILIES.map((name) => networked(name, true)), networked(OPEN, false)].join('\n');
}

/** What networks inside a family: two displays, a sonar box, a radar. */
function networked(name: string, isFamily: boolean): string {
  const of = isFamily ? `families ${name}` : '';
  const shows =
    'shows chart, waypoints, sonar, radar, video, position, heading, course, depth, speed, temperature, engine, tank, ais';
  return `// ---------------------------------------------------------------- ${name}

${isFamily ? `/// They network among themselves.\nfamily ${name} "${name} displays"` : ''}

model ${name}8 : display {
  title "8-inch display"  part "${name}-08"  price 899 USD
  ${of}
  screen 8 in  ingress IPX6, IPX7  compass 0.5 m
  port net   : ethernet sealed
  port sonar : transducer accepts standard output 300 W
  port n2k   : nmea2000 len 1
  port power : dc in 10..32 V draws 0.9 A max 1.5 A standby 0.05 A fuse 5 A
  ${shows}
  shares chart, waypoints, sonar, position, heading
  wants  position, heading at 10 Hz
}

/// Passes traffic between its network ports, and hosts a high-definition transducer.
model ${name}12 : display {
  title "12-inch display"  part "${name}-12"  price 1799 USD
  ${of}
  screen 12 in  ingress IPX6, IPX7  compass 0.6 m
  port 1..2  : ethernet sealed
  port sonar : transducer accepts hd output 600 W
  port n2k   : nmea2000 len 2
  port power : dc in 10..32 V draws 1.3 A max 2.3 A standby 0.05 A fuse 5 A
  ${shows}
  shares chart, waypoints, sonar, position, heading
  bridges ethernet
  wants position, heading at 10 Hz
}

model ${name}Box : sonar {
  title "Live-sonar box"  part "${name}-LB"  price 1100 USD
  ${of}
  ingress IPX6, IPX7  compass 0.5 m
  port net   : ethernet sealed
  port head  : transducer accepts hd output 500 W
  port power : dc in 10..32 V draws 1.8 A max 3 A standby 0.1 A fuse 7.5 A
  shares sonar
}

model ${name}Dome : radar {
  title "18-inch dome radar"  part "${name}-R18"  price 1750 USD
  ${of}
  ingress IPX6, IPX7  compass 0.6 m
  port net   : ethernet captive 15 m od 9 mm head 26 mm
  port power : dc in 10..32 V draws 1.5 A max 3 A standby 0.2 A fuse 5 A
  gives radar
  wants heading at 10 Hz
}
`;
}

const GENERAL = `// The catalogue of a generated boat. Names, parts, figures and prices are invented.

model Hub12 : switch {
  title "Ethernet switch, 12 ports"  part "BEN-SW12"  price 690 USD
  ingress IPX6, IPX7
  port 1..12 : ethernet sealed
  port power : dc in 10..32 V draws 0.5 A fuse 2 A
  bridges ethernet
}

/// Depth, and the classic picture.
model Beam : transducer {
  title "Transom transducer"  part "BEN-B1"  price 140 USD
  ingress IPX6, IPX8
  port plug : transducer captive 15 m od 6 mm head 20 mm
  gives sonar.traditional standard, depth, temperature.water
  band 83 kHz, 200 kHz  takes 300 W
}

/// Down and to the sides in high definition.
model BeamHD : transducer {
  title "High-definition transducer"  part "BEN-B5"  price 520 USD
  ingress IPX6, IPX8
  port plug : transducer captive 15 m od 7 mm head 22 mm
  gives sonar.side hd, sonar.down hd
  band 455 kHz, 800 kHz  takes 600 W
}

model LiveHead : transducer {
  title "Live-sonar head"  part "BEN-L2"  price 700 USD
  ingress IPX6, IPX8
  port plug : transducer captive 15 m od 8 mm head 24 mm
  gives sonar.live hd
  band 1..1.3 MHz  takes 500 W
}

model Dome3 : camera {
  title "Dome camera"  part "BEN-C3"  price 360 USD
  ingress IPX6, IPX7
  port net   : ethernet sealed
  port power : dc in 10..32 V draws 0.4 A fuse 1 A
  gives video
}

model Gnss10 : gnss {
  title "GNSS receiver"  part "BEN-G10"  price 210 USD
  ingress IPX6, IPX7
  port n2k : nmea2000 len 1
  gives position at 10 Hz, course at 4 Hz, time
}

model Heading9 : heading {
  title "Heading sensor"  part "BEN-H9"  price 590 USD
  ingress IPX6, IPX7
  port n2k : nmea2000 len 2
  gives heading at 10 Hz, turn at 10 Hz
}

model Tri : instrument {
  title "Depth, speed and temperature sensor"  part "BEN-T3"  price 340 USD
  ingress IPX6, IPX8
  port n2k : nmea2000 len 1
  gives depth, speed, temperature.water
  band 235 kHz
}

model Digits4 : instrument {
  title "Instrument display"  part "BEN-D4"  price 390 USD
  screen 4 in  ingress IPX6, IPX7
  port n2k : nmea2000 len 2
  shows depth, speed, heading, course, position
}

model Vhf25 : radio {
  title "VHF radio"  part "BEN-V25"  price 340 USD
  dsc
  ingress IPX6, IPX7
  port antenna : coax vhf
  port n2k     : nmea2000 len 1
  port power   : dc in 10.5..16 V draws 0.4 A max 5.5 A fuse 10 A
  wants position
}
model Whip24 : antenna {
  title "VHF antenna, 2.4 m"  part "BEN-W24"  price 130 USD
  ingress IPX6
  length 2.4 m
  port foot : coax vhf
}

model Agm105 : battery {
  title "AGM battery, 105 Ah"  part "BEN-A105"  price 240 USD
  voltage 12 V  charges 14.4 V  lowest 11 V  sags to 9.6 V
  capacity 105 Ah at 20 h  chemistry agm  peukert 1.1  depth 50 %
  cca 700 A  resistance 4 mohm
  port post : dc
}
model Cutoff300 : batteryswitch {
  title "Battery switch, 300 A"  part "BEN-C300"  price 45 USD
  positions off, on joins a + b
  carries 300 A  cranking 900 A
  port a, b : dc
}
model Panel24 : panel {
  title "Fuse panel, 24 ways"  part "BEN-P24"  price 390 USD
  carries 100 A
  port in    : dc in
  port 1..24 : dc out max 15 A holds blade
}
model Pump5 : load {
  title "Bilge pump"  part "BEN-BP5"  price 90 USD
  kind bilgepump  ingress IPX6, IPX8
  port power : dc in 10..16 V draws 2 A fuse 3 A
}
model Lights : load {
  title "Navigation lights"  part "BEN-NL"  price 180 USD
  kind navlight  ingress IPX6, IPX7
  port power : dc in 10..16 V draws 0.8 A fuse 3 A
}
model Fridge50 : load {
  title "Refrigerator, 50 l"  part "BEN-F50"  price 620 USD
  kind motor
  port power : dc in 10..32 V draws 3.5 A max 5 A fuse 10 A cutout 10.4 V
}

cable SealedNet : ethernet {
  title "Sealed network cable"  part "BEN-N"
  sealed  od 6.5 mm  head 24 mm  bend 30 mm
  stock 2 m at 39 USD, 6 m at 55 USD, 12 m at 79 USD, 20 m at 119 USD
}
cable Trunk : nmea2000 {
  title "NMEA 2000 cable"  part "BEN-N2K"
  sealed  resistance 57 ohm per km per conductor  carries 3 A  longest 100 m  od 6 mm  head 15 mm
}
cable Duplex14 : dc {
  title "Two-core cable, 14 AWG"  part "BEN-D14"
  size 14 AWG  rated 105 C  sheathed  od 9 mm  bulk 2 USD per m
}
cable Duplex10 : dc {
  title "Two-core cable, 10 AWG"  part "BEN-D10"
  size 10 AWG  rated 105 C  sheathed  od 12 mm  bulk 2 USD per m
}
cable Coax8X : coax {
  title "Antenna cable, RG-8X type"  part "BEN-8X"
  od 6.1 mm  bend 61 mm  loss 15.2 dB per 100 m at 156.8 MHz  bulk 3 USD per m
}
`;
