// Generated from src/language/library by scripts/embed-library.mjs. Do not edit.

/** The bundled library: each file by its path below src/language/library, with its text. */
export const libraryFiles: readonly { readonly name: string; readonly text: string }[] = [
  { name: "cables.loft", text: `// Cables that are cut from the reel and are alike whoever makes them. Moulded cables with lengths and prices belong in a
// catalogue. No prices here.

// ---------------------------------------------------------------- NMEA 2000 (IEC 61162-3)
// The standard's micro and mini plugs are screwed together and sealed.

/// Micro plugs, 22 AWG. Length and current: NMEA 2000. Resistance of one conductor from memory; 53 to 58 ohm per km are printed.
cable Nmea2000Light : nmea2000 {
  title "Light NMEA 2000 cable"
  sealed
  resistance 57 ohm per km per conductor
  carries 3 A
  longest 100 m
  od 6 mm
}

/// Mid cable with micro plugs, power pair of 16 AWG. Length and current: NMEA 2000; with mini plugs it carries 8 A.
/// Resistance derived from the copper.
cable Nmea2000Mid : nmea2000 {
  title "Mid NMEA 2000 cable"
  sealed
  resistance 14 ohm per km per conductor
  carries 4 A
  longest 200 m
  od 10 mm
}

/// Mini plugs, power pair of 16 AWG. Length and current: NMEA 2000. Resistance derived from the copper.
cable Nmea2000Heavy : nmea2000 {
  title "Heavy NMEA 2000 cable"
  sealed
  resistance 14 ohm per km per conductor
  carries 8 A
  longest 200 m
  od 12 mm
}

// ---------------------------------------------------------------- ethernet

/// Plain four-pair cable from the reel, for plugs fitted aboard; not sealed. 100 m and a bend of four times the diameter: TIA-568.
cable Cat5eReel : ethernet { title "Category 5e cable"  od 6 mm  bend 24 mm  longest 100 m }

// ---------------------------------------------------------------- antenna cable
// Loss at 30 and 150 MHz: ARRL Antenna Book, chapter 6, dB per 100 ft as printed there. Loss at 156.8 MHz (VHF channel 16)
// derived from those two by a * sqrt(f) + b * f. Diameters from memory; a bend of ten diameters is common practice, no source.

cable Rg58 : coax {
  title "RG-58"  od 5 mm  bend 50 mm
  loss 2.47 dB per 100 ft at 30 MHz
  loss 5.63 dB per 100 ft at 150 MHz
  loss 5.76 dB per 100 ft at 156.8 MHz
}

cable Rg8x : coax {
  title "RG-8X"  od 6.1 mm  bend 61 mm
  loss 1.96 dB per 100 ft at 30 MHz
  loss 4.53 dB per 100 ft at 150 MHz
  loss 4.64 dB per 100 ft at 156.8 MHz
}

cable Rg213 : coax {
  title "RG-213"  od 10.3 mm  bend 103 mm
  loss 1.08 dB per 100 ft at 30 MHz
  loss 2.53 dB per 100 ft at 150 MHz
  loss 2.59 dB per 100 ft at 156.8 MHz
}

/// The thick low-loss type. All from memory.
cable LowLoss10 : coax {
  title "Low-loss coaxial cable, 10 mm"  od 10.3 mm  bend 103 mm
  loss 0.68 dB per 100 ft at 30 MHz
  loss 1.54 dB per 100 ft at 150 MHz
  loss 1.57 dB per 100 ft at 156.8 MHz
}
` },
  { name: "classes.loft", text: `// What a model can be. \`symbol\` is how it is drawn. \`must\` lists what a model of the class has to state, because nothing could
// be said about it otherwise; \`may\` lists what else makes sense. A title, a part number, a price and a note are always welcome.

// ---------------------------------------------------------------- screens and what they show

/// A screen: chart plotter, multifunction display, repeater with a picture.
class display "Display" {
  symbol screen
  must   port, shows
  may    families, shares, bridges, gives, wants, passes, screen, ingress, compass, ignition
}

/// Sends the sound and hears the echo. A tail is its \`captive\` cable.
class transducer "Transducer" {
  symbol transducer
  must   port, gives
  may    families, band, takes, beam, ingress, wants, length, od
}

/// A black box that works out a sonar picture and has no screen of its own.
class sonar "Sonar black box" {
  symbol box
  must   port
  may    families, gives, shares, wants, bridges, passes, band, ingress, compass, ignition
}

/// A radar scanner: dome or open array.
class radar "Radar" {
  symbol radar
  must   port, gives
  may    families, shares, wants, bridges, peak, beam, ingress, compass, ignition
}

class camera "Camera" {
  symbol camera
  must   port, gives
  may    families, shares, wants, bridges, ingress, compass, beam, ignition
}

// ---------------------------------------------------------------- sensors and steering

/// A receiver of satellite positions.
class gnss "GNSS receiver" {
  symbol satellite
  must   port, gives
  may    families, shares, wants, passes, ingress, compass, ignition
}

/// An electronic compass: magnetic, or by satellites.
class heading "Heading sensor" {
  symbol compass
  must   port, gives
  may    families, shares, wants, passes, ingress, compass, ignition
}

/// The card in its bowl. It gives nothing to a network; other things must keep away from it.
class compass "Magnetic compass" {
  symbol compass
  may    port, ingress
}

/// The computer of a self-steering system, or the whole of it.
class pilot "Pilot" {
  symbol pilot
  must   port
  may    families, shows, shares, gives, wants, passes, carries, ingress, compass, ignition
}

/// A measuring or showing instrument: log, wind, depth, temperature, a repeater with digits.
class instrument "Instrument" {
  symbol instrument
  must   port
  may    families, shows, shares, gives, wants, passes, band, takes, screen, ingress, compass, ignition
}

// ---------------------------------------------------------------- radio

class radio "Radio" {
  symbol radio
  must   port
  may    families, dsc, shows, shares, gives, wants, passes, peak, ingress, compass, ignition
}

/// AIS, class A or B, or a receiver alone.
class transponder "AIS transponder" {
  symbol radio
  must   port
  may    families, gives, shares, wants, passes, peak, ingress, compass, ignition
}

class antenna "Antenna" {
  symbol antenna
  must   port
  may    gives, beam, length, od, ingress, compass
}

/// Several radios on one antenna.
class antennasplitter "Antenna splitter" {
  symbol splitter
  must   port
  may    loss, passes, ingress, compass, ignition
}

// ---------------------------------------------------------------- networks

/// Joins one bus to another, or several talkers to one line.
class gateway "Gateway" {
  symbol gateway
  must   port
  may    families, passes, bridges, gives, shares, wants, ingress, compass, ignition
}

/// An ethernet switch.
class switch "Ethernet switch" {
  symbol switch
  must   port, bridges
  may    families, poe, ingress, compass, ignition
}

/// A box with several drops of one NMEA 2000 backbone.
class teebox "Tee box" {
  symbol tee
  must   ports
  may    port, ingress
}

/// Stands between two cables or conductors: plug and socket, gland, extension, adapter.
class joint "Joint" {
  symbol joint
  may    port, carries, length, od, sealed, loss, ingress
}

// ---------------------------------------------------------------- engines and electricity

class engine "Engine" {
  symbol engine
  must   port
  may    families, gives, wants, ignition
}

/// A battery or a bank; \`series\` and \`parallel\` at the device say how many make it up.
class battery "Battery" {
  symbol battery
  must   port, voltage
  may charges, lowest, sags, capacity, chemistry, peukert, depth, cca, resistance, shortcircuit, gives, ingress, ignition
}

/// Charges batteries from shore or a generator.
class charger "Charger" {
  symbol charger
  must   port
  may    efficiency, peak, gives, wants, ingress, compass, ignition
}

/// Panels and their regulator.
class solar "Solar" {
  symbol solar
  must   port
  may    efficiency, peak, gives, ingress, compass, ignition
}

/// Direct current to direct current: another voltage, or one bank to another.
class converter "Converter" {
  symbol converter
  must   port
  may    efficiency, peak, gives, ingress, compass, ignition
}

/// Direct current to alternating current.
class inverter "Inverter" {
  symbol inverter
  must   port
  may    efficiency, peak, gives, wants, ingress, compass, ignition
}

/// A relay that joins two banks while one of them is charged.
class combiner "Combiner" {
  symbol combiner
  must   port
  may    carries, closes, opens, ingress, ignition
}

/// Diodes that let one charging source feed several banks.
class chargesplitter "Charge splitter" {
  symbol diode
  must   port
  may    carries, forward, ingress, ignition
}

/// Turned by hand; each position says which of its ports it joins.
class batteryswitch "Battery switch" {
  symbol batteryswitch
  must   port, positions
  may    carries, cranking, ingress, ignition
}

/// Measures the current of a bank in its negative or positive.
class shunt "Shunt" {
  symbol shunt
  must   port
  may    carries, resistance, gives, wants, ingress, ignition
}

/// Ways with fuses or breakers.
class panel "Panel" {
  symbol panel
  must   port
  may    carries, gives, wants, ingress, compass, ignition
}

class busbar "Busbar" {
  symbol busbar
  must   port
  may    carries, ingress
}

/// Whatever takes current and is none of the above: pump, blower, light, windlass, thruster. \`kind\` says which.
class load "Load" {
  symbol load
  must   port
  may    kind, automatic, peak, maxdrop, gives, wants, ingress, compass, ignition
}
` },
  { name: "exposures.loft", text: `// What a place does to gear. \`asks\` lists the codes (IEC 60529) that the face of a device has to hold there, each of them:
// a device that is tight under water (X7) is not thereby tight against a jet (X6). \`wet\` says that an open connector takes
// harm there; \`hot\`, that the ambient of an engine space holds.

/// Green water, rain and the hose: foredeck, open helm, transom, and all of an open boat.
/// IPX6 and IPX7 for an open helm: common practice, no source.
exposure exposed "Open to the sea" { asks IPX6, IPX7  wet }

/// High up, in rain and spray and never under water: mast, arch, roof.
/// IPX6: common practice, no source.
exposure aloft "On the mast or the roof" { asks IPX6  wet }

/// Under a hardtop or behind a screen, where spray finds its way.
/// IPX4: common practice, no source.
exposure sheltered "Under cover" { asks IPX4 }

/// Dry and lived in. IP20: table of the Swedish Transport Agency.
exposure interior "Below deck" { asks IP20 }

/// Engine space above the floor. IP22 where nothing sprays: table of the Swedish Transport Agency, which asks IP44 where
/// something does.
exposure machinery "Engine space" { asks IP22  wet  hot }
` },
  { name: "fuses.loft", text: `// Fuses as they are sold. \`ratings\` in ascending order; \`rated\` is the highest voltage of the circuit; \`interrupts\` is the
// greatest fault current that the fuse is sure to break at a voltage.
//
// Where "from memory" is written, the figure stands for the type as commonly sold and has no published source here: the
// maker's data sheet of the fuse that is bought rules.

/// The small flat plug-in fuse. Ratings up to 30 A as sold; 35 A and 40 A from memory. Interrupting from memory.
fusetype blade "Blade fuse" {
  ratings    1 A, 2 A, 3 A, 4 A, 5 A, 7.5 A, 10 A, 15 A, 20 A, 25 A, 30 A, 35 A, 40 A
  rated      32 V
  interrupts 1000 A at 32 V
}

/// The large flat plug-in fuse. Voltage and interrupting from memory, as for its small sister.
fusetype largeblade "Large blade fuse" {
  ratings    20 A, 30 A, 40 A, 50 A, 60 A, 70 A, 80 A
  rated      32 V
  interrupts 1000 A at 32 V
}

/// Sits on the battery's terminal. Range of ratings as sold, its steps, voltage and interrupting from memory.
fusetype mrbf "Terminal fuse" {
  ratings    30 A, 40 A, 50 A, 60 A, 75 A, 80 A, 90 A, 100 A, 125 A, 150 A, 175 A, 200 A, 225 A, 250 A, 300 A
  rated      58 V
  interrupts 10000 A at 14 V, 5000 A at 32 V, 2000 A at 58 V
  ignition protected
}

/// Bolted, for windlasses, thrusters and mains. All from memory.
fusetype anl "Bolted fuse" {
  ratings 35 A, 40 A, 50 A, 60 A, 80 A, 100 A, 130 A, 150 A, 175 A, 200 A, 225 A, 250 A, 275 A, 300 A, 325 A, 350 A, 400 A
  rated      32 V
  interrupts 6000 A at 32 V
  ignition protected
}

/// Bolted and quick, for large banks and lithium. All from memory.
fusetype classt "Class T fuse" {
  ratings    110 A, 125 A, 150 A, 175 A, 200 A, 225 A, 250 A, 300 A, 350 A, 400 A
  rated      125 V
  interrupts 20000 A at 125 V
}
` },
  { name: "media.loft", text: `// What a port can be of. \`connects\` says how many ends a connection has and which may meet:
//
//   pair   two ends, and each port has one connection
//   line   one talker, and several listeners by several links
//   tree   from what supplies to what is supplied; a port without a direction takes many conductors
//   net    all that is teed onto one backbone
//   none   nothing is plugged in
//
// \`may\` lists the features that a port of the medium may have, \`must\` those that it has to have.

/// Marine ethernet, copper. Everything that networks pictures and charts.
medium ethernet "Ethernet" { connects pair  may sealed, captive, with, poe, powered }

/// NMEA 2000 (IEC 61162-3): a backbone with a terminator at each end, and drops to the devices. What a device takes from it is
/// said in load units of 50 mA (\`len\`), or as it is printed (\`draws\`, \`max\`).
medium nmea2000 "NMEA 2000" { connects net  may sealed, len, draws, max, sends, terminates, isolated, captive, powered }

/// NMEA 0183 (IEC 61162-1 and -2): one talker, its listeners. A port talks, or listens, or both.
medium nmea0183 "NMEA 0183" {
  connects line
  may      talks, listens, single, differential, isolated, drives, load, sends, powered, sealed, captive
}

/// Between an echo sounder or display and its transducer.
medium transducer "Transducer" { connects pair  may accepts, output, powered, sealed, captive }

/// Direct current. \`in\` takes, \`out\` gives, neither goes both ways and takes many conductors.
medium dc "Direct current" {
  connects tree
  may      in, out, draws, max, standby, fuse, limits, cutout, studs, holds, cranks, isolated, sealed, captive
}

/// Coaxial cable between a radio or receiver and its antenna; the word on the port is what the antenna serves.
medium coax "Antenna cable" { connects pair  may service, powered, sealed, captive }

/// Moving pictures on a cable of their own.
medium video "Video" { connects pair  may in, out, powered, sealed, captive }

/// Sound on a cable of its own.
medium audio "Audio" { connects pair  may in, out, output, sealed, captive }

medium usb "USB" { connects pair  may powered, sealed, captive, with, draws, max, standby }

/// Radio between two devices; there is no cable to buy or to route.
medium wireless "Wireless" { connects pair  may service }

/// A wire that switches something: ignition, an alarm, a synchronisation pulse.
medium trigger "Trigger" { connects pair  may in, out, sealed, captive }

/// Shore power, generator and inverter circuits. Drawn, and not computed.
medium ac "Alternating current" {
  connects tree
  may      in, out, draws, max, standby, fuse, limits, isolated, sealed, captive
}

/// A maker's own plug, named after the word: \`own "handset"\`. Two such ports meet only if their plugs have one name.
medium own "The maker's own plug" { connects pair  may powered, sealed, captive, in, out, draws, max, standby, with }
` },
  { name: "signals.loft", text: `// The signals that devices give, want, show and share. They form a tree: a name covers everything below it, so that a
// display that \`shows sonar\` shows \`sonar.side\` too.
//
// \`pgn\` is the NMEA 2000 message that carries the signal where nothing else is said, and \`at\` its usual rate. Numbers and
// intervals: the open canboat table of messages (@canboat/pgns 6.0.2). A signal whose message is sent at irregular times has
// no rate. \`sentence\` is the NMEA 0183 sentence (IEC 61162-1) that carries it. A signal without either does not go over those
// two buses: pictures and charts are shared over ethernet.

// ---------------------------------------------------------------- on the screen

/// The electronic chart itself, as a display draws it.
signal chart "Chart"

/// The owner's waypoints, routes and tracks.
signal waypoints "Waypoints, routes and tracks"

/// Whatever an echo sounder or sonar draws.
signal sonar "Sonar"
/// The classic picture: the water below the boat, scrolling past.
signal sonar.traditional "Traditional sonar"
/// A sounding with a frequency sweep.
signal sonar.chirp "Swept sonar"
/// A picture like a photograph of what lies straight below.
signal sonar.down "Down-looking sonar"
/// A picture of the bottom to both sides.
signal sonar.side "Side-looking sonar"
/// A moving picture, at once, of a cone of water.
signal sonar.live "Live sonar"
/// The bottom ahead of the boat.
signal sonar.forward "Forward-looking sonar"
/// The bottom as a model in three dimensions.
signal sonar.volume "Three-dimensional sonar"

/// The radar's picture.
signal radar "Radar"
/// Targets that the radar follows, with course and speed.
signal radar.targets "Tracked radar targets" { pgn 128520 at 1 Hz  sentence TTM }

/// Moving pictures from a camera or another source.
signal video "Video"
/// Moving pictures from a heat camera.
signal video.thermal "Thermal video"

/// Music and speech.
signal audio "Audio"

/// Forecasts and weather pictures, as a receiver or a modem brings them.
signal forecast "Weather forecast"

// ---------------------------------------------------------------- position and course

signal position "Position" { pgn 129025 at 10 Hz  sentence GGA }
/// The full message with quality, height and satellites used.
signal position.quality "Position with its quality" { pgn 129029 at 1 Hz  sentence GNS }
signal satellites       "Satellites in view" { pgn 129540 at 1 Hz  sentence GSV }
/// Course and speed over ground.
signal course "Course and speed over ground" { pgn 129026 at 4 Hz  sentence VTG }
signal time   "Date and time" { pgn 126992 at 1 Hz  sentence ZDA }

signal heading          "Heading" { pgn 127250 at 10 Hz  sentence HDT }
signal heading.magnetic "Magnetic heading" { pgn 127250 at 10 Hz  sentence HDG }
signal variation        "Magnetic variation" { pgn 127258 at 1 Hz  sentence HDG }
signal turn             "Rate of turn" { pgn 127251 at 10 Hz  sentence ROT }
/// Heel, trim and yaw.
signal attitude "Attitude" { pgn 127257 at 1 Hz  sentence XDR }
signal heave    "Heave" { pgn 127252 }

signal route       "Bearing and distance to the next waypoint" { pgn 129284 at 1 Hz  sentence RMB }
signal route.error "Distance off track" { pgn 129283 at 1 Hz  sentence XTE }

// ---------------------------------------------------------------- water, wind and weather

signal depth "Depth" { pgn 128267 at 1 Hz  sentence DPT }
/// Speed through the water.
signal speed             "Speed through the water" { pgn 128259 at 1 Hz  sentence VHW }
signal distance          "Distance log" { pgn 128275 at 1 Hz  sentence VLW }
signal wind              "Wind" { pgn 130306 at 10 Hz  sentence MWV }
signal wind.apparent     "Apparent wind" { pgn 130306 at 10 Hz  sentence MWV }
signal wind.true         "True wind" { pgn 130306 at 10 Hz  sentence MWV }
signal temperature       "Temperature" { pgn 130312 at 0.5 Hz  sentence XDR }
signal temperature.water "Water temperature" { pgn 130312 at 0.5 Hz  sentence MTW }
signal weather           "Weather" { pgn 130311 at 2 Hz  sentence XDR }
signal weather.pressure  "Air pressure" { pgn 130314 at 0.5 Hz  sentence XDR }
signal weather.humidity  "Humidity" { pgn 130313 at 0.5 Hz  sentence XDR }

// ---------------------------------------------------------------- steering

signal rudder "Rudder angle" { pgn 127245 at 10 Hz  sentence RSA }
/// What the pilot is doing: its mode and the course it holds.
signal pilot "Pilot" { pgn 127237 at 4 Hz  sentence HTD }
signal trim  "Trim tabs" { pgn 130576 at 5 Hz }

// ---------------------------------------------------------------- engines, tanks, electricity

/// Revolutions, boost and trim.
signal engine "Engine" { pgn 127488 at 10 Hz  sentence RPM }
/// Oil pressure, temperatures, hours, alarms.
signal engine.health "Engine health" { pgn 127489 at 2 Hz }
signal engine.fuel   "Fuel used" { pgn 127497 at 1 Hz }
signal tank          "Tank level" { pgn 127505 at 0.4 Hz  sentence XDR }
/// Voltage, current and temperature of a battery.
signal battery "Battery" { pgn 127508 at 0.667 Hz  sentence XDR }
/// State of charge and time remaining.
signal battery.status "Battery state of charge" { pgn 127506 at 0.667 Hz }
signal shore          "Shore power" { pgn 127503 at 0.667 Hz }
signal switching      "Switched circuits" { pgn 127501 }
signal windlass       "Windlass" { pgn 128776 }

// ---------------------------------------------------------------- other vessels, and distress

/// Other vessels, as received.
signal ais        "Other vessels (AIS)" { pgn 129038  sentence VDM }
signal ais.classB "Small craft (AIS class B)" { pgn 129039  sentence VDM }
signal ais.names  "Names and voyages (AIS)" { pgn 129794  sentence VDM }
signal ais.marks  "Aids to navigation (AIS)" { pgn 129041  sentence VDM }
/// The own transponder's report.
signal ais.own "Own AIS report" { sentence VDO }
/// Digital selective calls.
signal calls     "Digital selective calls" { pgn 129808  sentence DSC }
signal overboard "Man overboard" { pgn 127233  sentence MOB }
signal alarm     "Alarms" { pgn 126983  sentence ALR }
` },
];
