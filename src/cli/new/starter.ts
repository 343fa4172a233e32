/** The spec that a new boat starts from: small, complete, and clean under every rule. */
export function starter(name: string): string {
  return `// A starter spec. Make it your boat's; "wireloft check ${name}.loft" says what cannot work, why, and what would
// make it right.

vessel ${name} "Small open boat" {
  practice abyc                  // the tables that size wires and fuses: abyc or iso
  currency USD
  slack    0.5 m                 // service loop at each end of every cable
  wiring   105 C                 // insulation rating of wires not said otherwise
}

// Places, from bow to stern, and the ways between them that cables can take.
zone helm  sheltered aft 2.5 m
zone stern exposed   aft 4.8 m

run helm -- stern 3 m

// What is aboard, and where it sits.
device plotter : Display9     at helm
device sounder : Transducer50 at stern
device house   : Battery60    at stern

// What plugs into what, and what feeds it.
link sounder -- plotter.sonar
feed house -> plotter fuse 5 A blade at house after 150 mm

// What the boat must do. It is checked like a test.
need plotter show sounder

view "Under way" on plotter { left: chart  right: sounder }

// Models. Keep them in a file of their own, and \`use\` it, when several boats share them.
model Display9 : display {
  title "9-inch display"
  ingress IPX6, IPX7
  port sonar : transducer accepts hd
  port power : dc in 10..32 V draws 1.2 A max 2 A fuse 5 A
  shows chart, waypoints, sonar
}

model Transducer50 : transducer {
  title "Transducer for the stern"
  ingress IPX6, IPX8
  port plug : transducer captive 7.5 m
  gives sonar.traditional, sonar.down
  band 200 kHz
}

model Battery60 : battery {
  title "Battery, 60 Ah"
  voltage 12 V  charges 14.4 V  lowest 11 V
  capacity 60 Ah at 20 h  resistance 12 mohm
  chemistry agm
  port post : dc
}
`;
}
