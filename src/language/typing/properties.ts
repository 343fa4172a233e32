/**
 * What each property wants, and what it means: the one table behind type errors, hovers and completions.
 * Keys are the keyword that begins the property, with the construct it stands in where one word has two meanings.
 */
import type { Dimension } from '../../vessel/units.js';

export interface Property {
  readonly doc: string;
  /** Dimensions that fit; the first is the usual one. */
  readonly wants?: readonly Dimension[];
}

const p = (doc: string, ...wants: Dimension[]): Property => (wants.length > 0 ? { doc, wants } : { doc });

/** Properties of a model. */
export const MODEL_PROPERTIES: Readonly<Record<string, Property>> = {
  title: p('What it is called on drawings and lists.'),
  part: p('Part number to order by.'),
  price: p('Price of one, without tax.', 'money'),
  note: p('A remark for whoever reads the spec or the lists.'),
  port: p('A socket, plug or tail: names, medium, and what it can do.'),
  families: p('Families whose displays it works with. A device without one is neutral.'),
  screen: p("The screen's diagonal.", 'length'),
  ingress: p('Declared IP codes (IEC 60529). IPX7 does not imply IPX6: state both where both hold.'),
  compass: p('Declared safe distance from a magnetic compass.', 'length'),
  shows: p('Signals that its screen can show.'),
  shares: p('Signals that it passes on over ethernet to displays of its family.'),
  gives: p('Signals it is a source of, with grade and rate.'),
  wants: p('Signals it needs to hear, with the rate it wants.'),
  bridges: p('Media whose traffic it passes between its own ports, while powered.'),
  passes: p('What a gateway lets through, from which ports to which.'),
  positions: p('Positions of the switch, and the ports each joins.'),
  band: p('Frequencies a transducer or sounder works at.', 'frequency'),
  takes: p('Highest transmit power the transducer takes.', 'power'),
  capacity: p('Capacity, at the discharge time it is rated for: 105 Ah at 20 h.', 'charge'),
  chemistry: p('flooded, agm, gel, lfp or nmc.'),
  voltage: p('Nominal voltage.', 'voltage'),
  charges: p('Voltage while it is charged: the highest that its devices meet.', 'voltage'),
  lowest: p('Lowest voltage to plan with.', 'voltage'),
  sags: p('Voltage it sags to while an engine cranks.', 'voltage'),
  peukert: p('Peukert exponent (flooded 1.2 to 1.6, AGM 1.05 to 1.15, gel 1.1 to 1.25).', 'number'),
  depth: p('How much of the capacity is used before it is charged again.', 'ratio'),
  cca: p('Cold cranking amperes.', 'current'),
  shortcircuit: p('Short-circuit current its maker states.', 'current'),
  resistance: p('Internal or contact resistance.', 'resistance'),
  carries: p('Current it carries continuously.', 'current'),
  cranking: p('Current it carries while an engine cranks.', 'current'),
  closes: p('Voltage at which a combiner closes.', 'voltage'),
  opens: p('Voltage at which a combiner opens.', 'voltage'),
  forward: p('Voltage lost across a diode splitter.', 'voltage'),
  efficiency: p('Power out for power in.', 'ratio'),
  peak: p('Highest power: of a solar panel in full sun, of a radar in its pulse.', 'power'),
  maxdrop: p('Voltage drop its maker allows on the way to it.', 'ratio'),
  beam: p('Opening angle of its beam.', 'angle'),
  ignition: p('Ignition protected: may stand where petrol vapour may collect (33 CFR 183.410).'),
  poe: p('Power over ethernet that the whole switch supplies.', 'power'),
  kind: p(
    'What a load is: bilgepump, blower, navlight, motor, thruster, pilotdrive, alarm, memory, trolling or light.',
  ),
  automatic: p('Switches itself on.'),
  dsc: p('A radio with digital selective calling: it needs a position.'),
  sealed: p('Its connectors are sealed.'),
  length: p('Length it adds to the cable it is joined into.', 'length'),
  od: p('Outside diameter.', 'length'),
  loss: p('Signal loss of a connector, or of a cable per length at a frequency.', 'loss'),
  ports: p('How many drops a tee box has.'),
};

/** Features of a port. */
export const PORT_FEATURES: Readonly<Record<string, Property>> = {
  sealed: p('The connector is sealed.'),
  accepts: p('Grade of sonar the port can host. One that accepts hd accepts standard too.'),
  output: p("The sounder's transmit power at this port.", 'power'),
  len: p('Load equivalency number: units of 50 mA on the backbone (IEC 61162-3).'),
  terminates: p('Has the terminator built in.'),
  talks: p('Sends NMEA 0183, at this rate in bit/s.'),
  listens: p('Receives NMEA 0183, at this rate in bit/s.'),
  single: p('Single-ended signalling.'),
  differential: p('Differential signalling (IEC 61162-1 from edition 2).'),
  isolated: p('Isolated: an opto-coupled listener, or a supply whose output is apart from its input.'),
  drives: p('How many listeners the driver carries.'),
  load: p('Current a listener draws from the line.', 'current'),
  sends: p(
    'Messages it sends: NMEA 0183 sentences or NMEA 2000 parameter group numbers, each with its rate.',
  ),
  in: p('Takes direct current, within this range.', 'voltage'),
  out: p('Gives direct current, at this voltage.', 'voltage'),
  draws: p('What it draws in use.', 'current', 'power'),
  max: p('Most that it draws, or that a way may carry.', 'current', 'power'),
  standby: p('What it draws while off.', 'current', 'power'),
  fuse: p('Fuse its maker states.', 'current'),
  holds: p('Fuse types its own holder takes.'),
  limits: p('Current it limits itself to.', 'current'),
  cranks: p('Current it draws while cranking, and for how long.', 'current'),
  cutout: p('Voltage under which it switches itself off.', 'voltage'),
  studs: p('How many studs it has; four conductors fit on one (ABYC E-11).'),
  captive: p('A moulded tail of its own: nothing to buy, and it must reach.', 'length'),
  with: p('The cable carries power as well.'),
  powered: p('Fed through this plug.'),
  poe: p('Power over ethernet that the port gives or wants: an IEEE 802.3 class, or passive.', 'voltage'),
  service: p('What an antenna port serves: vhf, ais, gnss, hf, wifi, cellular, broadcast or satcom.'),
};

export const CABLE_PROPERTIES: Readonly<Record<string, Property>> = {
  title: p('What it is called on lists.'),
  part: p('Part number to order by.'),
  note: p('A remark.'),
  sealed: p('Its connectors are sealed: fit for wet places.'),
  sheathed: p('Its conductors lie in a sheath.'),
  od: p('Outside diameter.', 'length'),
  head: p('Diameter of its moulded connector, which has to pass a conduit.', 'length'),
  longest: p('Longest it may be.', 'length'),
  bend: p('Smallest bend radius.', 'length'),
  stock: p('Lengths it is sold in, each with its price. Without them it is cut to length.', 'length'),
  bulk: p('Price by length, cut from the reel.', 'money'),
  resistance: p('Resistance of a conductor, per length.', 'resistance'),
  carries: p('Current it carries.', 'current'),
  rated: p('Temperature its insulation is rated for.', 'temperature'),
  loss: p('Signal loss, per length at a frequency.', 'loss'),
  size: p('Conductor size: 14 AWG or 2.5 mm2.', 'gauge'),
};

export const VESSEL_PROPERTIES: Readonly<Record<string, Property>> = {
  practice: p('Which tables size wires and fuses: abyc or iso.'),
  currency: p('Currency of the quote: an ISO 4217 code.'),
  slack: p('Service loop at each end of every cable.', 'length'),
  wiring: p('Insulation rating of wires not said otherwise.', 'temperature'),
  hull: p('What the hull is made of.'),
  status: p('Status of the drawings: preliminary, installation or built.'),
  owner: p('For the title block.'),
  yard: p('For the title block.'),
  number: p('Drawing number, for the title block.'),
  revision: p('Revision, for the title block.'),
  targets: p('AIS targets to reckon with on the bus.'),
  labour: p('Price of an hour, and the time a cable end and a device take.', 'money'),
};

export const DEVICE_PROPERTIES: Readonly<Record<string, Property>> = {
  series: p('How many batteries stand in series in a string.'),
  parallel: p('How many, or how many strings, stand in parallel.'),
  instance: p('Instance number: what tells twins apart on the bus.'),
  note: p('A remark.'),
  offset: p("Metres forward, to starboard and up from the zone's origin.", 'length'),
  normally: p('Position the switch is in unless a mode says otherwise.'),
  synced: p('Sounders that take turns, so that they do not disturb each other.'),
};

/** Clauses of links, feeds, taps, zones and runs. */
export const CLAUSES: Readonly<Record<string, Property>> = {
  using: p('The cable.'),
  join: p('A plug, gland or extension in the cable.'),
  by: p('Runs to go along, where the shortest route is not meant.'),
  length: p('Length of the cable, where it is not to be worked out.', 'length'),
  label: p('What its ends are marked with.'),
  existing: p('Already aboard: costs nothing and stays.'),
  leaving: p('Comes out in the refit.'),
  fuse: p('Fuse: rating, type, and where it sits.', 'current'),
  breaker: p('Breaker: rating, and where it sits.', 'current'),
  protected: p('No device of its own: covered upstream, and checked.'),
  cranking: p("A starter's conductor: no fuse is asked."),
  sheathed: p('In a sheath or conduit all the way.'),
  wire: p('Conductor size, and its insulation rating.', 'gauge'),
  rated: p('Rating: of insulation in degrees Celsius, of a device in volts.', 'temperature', 'voltage'),
  interrupts: p('Current it can interrupt.', 'current'),
  after: p('Distance along the conductor from its source.', 'length'),
  drop: p('Length of the drop.', 'length'),
  span: p('Cable from one tee to the next.', 'length'),
  aft: p('How far aft of the bow.', 'length'),
  height: p('Height above the waterline.', 'length'),
  side: p('port, starboard or centre.'),
  deck: p('Which deck.'),
  petrol: p('Petrol vapour may collect here: ignition protection is asked.'),
  diesel: p('Diesel only.'),
  conduit: p('A conduit, with its bore.', 'length'),
  loom: p('Cables run bundled.'),
  back: p('Zone where the back of a flush-mounted device is.'),
  allow: p('A waiver: the rule, the reason, and a last day.'),
};
