/**
 * The sentences of NMEA 0183 (IEC 61162-1) that boats use, each with a title of ours and its shape: two dashes for the talker, then
 * its fields at their usual widths. The shapes of GGA, RMC, VTG, HDT, DPT, MWV and VHW come to their published lengths; those of
 * the others are from memory. What a sentence brings is what its fields say; those that bring nothing which the bundled library names
 * have an empty list.
 */

export interface Sentence {
  readonly title: string;
  /** Without carriage return and line feed. */
  readonly shape: string;
  /** The signals that it brings, by the bundled library's names. */
  readonly carries: readonly string[];
}

export const SENTENCES: Readonly<Record<string, Sentence>> = {
  // position and time
  GGA: {
    title: 'Position and its quality',
    shape: '$--GGA,hhmmss,ddmm.mmm,N,dddmm.mmm,W,1,08,0.9,000.0,M,00.0,M,,*hh',
    carries: ['position', 'position.quality'],
  },
  GLL: {
    title: 'Latitude and longitude',
    shape: '$--GLL,ddmm.mmm,N,dddmm.mmm,W,hhmmss,A,A*hh',
    carries: ['position'],
  },
  GNS: {
    title: 'Position of several satellite systems',
    shape: '$--GNS,hhmmss.ss,ddmm.mmmm,N,dddmm.mmmm,W,AA,12,0.9,000.0,00.0,,*hh',
    carries: ['position', 'position.quality'],
  },
  GSA: {
    title: 'Satellites in use, dilution',
    shape: '$--GSA,A,3,00,00,00,00,00,00,00,00,,,,,0.0,0.0,0.0*hh',
    carries: ['satellites'],
  },
  GSV: {
    title: 'Satellites in view',
    shape: '$--GSV,3,1,12,00,00,000,00,00,00,000,00,00,00,000,00,00,00,000,00*hh',
    carries: ['satellites'],
  },
  RMC: {
    title: 'Recommended minimum: position, course, speed, date',
    shape: '$--RMC,hhmmss,A,ddmm.mmm,N,dddmm.mmm,W,000.0,000.0,ddmmyy,000.0,W*hh',
    carries: ['position', 'course', 'time'],
  },
  ZDA: { title: 'Date and time', shape: '$--ZDA,hhmmss.ss,dd,mm,yyyy,00,00*hh', carries: ['time'] },
  DTM: { title: 'Datum', shape: '$--DTM,W84,,0.0,N,0.0,E,0.0,W84*hh', carries: [] },
  VTG: {
    title: 'Course and speed over ground',
    shape: '$--VTG,000.0,T,000.0,M,000.0,N,000.0,K*hh',
    carries: ['course'],
  },
  // heading and steering
  HDT: { title: 'True heading', shape: '$--HDT,000.0,T*hh', carries: ['heading'] },
  HDG: {
    title: 'Magnetic heading, deviation, variation',
    shape: '$--HDG,000.0,00.0,E,00.0,W*hh',
    carries: ['heading.magnetic', 'variation'],
  },
  HDM: { title: 'Magnetic heading', shape: '$--HDM,000.0,M*hh', carries: ['heading.magnetic'] },
  THS: { title: 'True heading and its status', shape: '$--THS,000.0,A*hh', carries: ['heading'] },
  ROT: { title: 'Rate of turn', shape: '$--ROT,-000.0,A*hh', carries: ['turn'] },
  RSA: { title: 'Rudder angle', shape: '$--RSA,-00.0,A,,*hh', carries: ['rudder'] },
  HTD: {
    title: 'What the pilot holds and does',
    shape: '$--HTD,V,00.0,L,H,R,00.0,00.0,00.0,0.00,000.0,T,A,A,A,000.0*hh',
    carries: ['pilot'],
  },
  HTC: {
    title: 'Orders to the pilot',
    shape: '$--HTC,V,00.0,L,H,R,00.0,00.0,00.0,0.00,000.0,T*hh',
    carries: [],
  },
  // the way to the next waypoint
  RMB: {
    title: 'Recommended minimum for a route',
    shape: '$--RMB,A,0.00,L,WPT001,WPT002,ddmm.mmm,N,dddmm.mmm,W,000.0,000.0,00.0,V*hh',
    carries: ['route', 'route.error'],
  },
  APB: {
    title: 'Orders to a pilot on a route',
    shape: '$--APB,A,A,0.00,L,N,V,V,000.0,M,WPT002,000.0,M,000.0,M*hh',
    carries: ['route', 'route.error'],
  },
  XTE: { title: 'Distance off track', shape: '$--XTE,A,A,0.00,L,N*hh', carries: ['route.error'] },
  BOD: {
    title: 'Bearing from waypoint to waypoint',
    shape: '$--BOD,000.0,T,000.0,M,WPT002,WPT001*hh',
    carries: ['route'],
  },
  BWC: {
    title: 'Bearing and distance to a waypoint',
    shape: '$--BWC,hhmmss,ddmm.mmm,N,dddmm.mmm,W,000.0,T,000.0,M,00.0,N,WPT002*hh',
    carries: ['route'],
  },
  BWR: {
    title: 'Bearing and distance along the rhumb line',
    shape: '$--BWR,hhmmss,ddmm.mmm,N,dddmm.mmm,W,000.0,T,000.0,M,00.0,N,WPT002*hh',
    carries: ['route'],
  },
  WPL: { title: 'A waypoint', shape: '$--WPL,ddmm.mmm,N,dddmm.mmm,W,WPT002*hh', carries: ['waypoints'] },
  RTE: {
    title: 'A route',
    shape: '$--RTE,1,1,c,ROUTE1,WPT001,WPT002,WPT003,WPT004*hh',
    carries: ['waypoints'],
  },
  AAM: { title: 'Arrival at a waypoint', shape: '$--AAM,A,A,0.10,N,WPT002*hh', carries: [] },
  VDR: { title: 'Set and drift', shape: '$--VDR,000.0,T,000.0,M,0.0,N*hh', carries: [] },
  // water and weather
  DPT: {
    title: 'Depth and the offset of the transducer',
    shape: '$--DPT,0000.0,-0.0,*hh',
    carries: ['depth'],
  },
  DBT: {
    title: 'Depth below the transducer',
    shape: '$--DBT,000.0,f,000.0,M,000.0,F*hh',
    carries: ['depth'],
  },
  MTW: { title: 'Water temperature', shape: '$--MTW,00.0,C*hh', carries: ['temperature.water'] },
  VHW: {
    title: 'Speed through the water, heading',
    shape: '$--VHW,,T,,M,00.0,N,000.0,K*hh',
    carries: ['speed'],
  },
  VBW: {
    title: 'Speed over ground and through water, both ways',
    shape: '$--VBW,00.0,0.0,A,00.0,0.0,A,,V,,V*hh',
    carries: ['speed'],
  },
  VLW: { title: 'Distance through the water', shape: '$--VLW,00000.0,N,000.0,N*hh', carries: ['distance'] },
  MWV: {
    title: 'Wind speed and angle',
    shape: '$--MWV,000.0,R,000.0,N,A*hh',
    carries: ['wind', 'wind.apparent', 'wind.true'],
  },
  MWD: {
    title: 'Wind direction and speed',
    shape: '$--MWD,000.0,T,000.0,M,00.0,N,00.0,M*hh',
    carries: ['wind.true'],
  },
  VWR: {
    title: 'Apparent wind',
    shape: '$--VWR,000.0,R,00.0,N,00.0,M,000.0,K*hh',
    carries: ['wind.apparent'],
  },
  VWT: { title: 'True wind', shape: '$--VWT,000.0,R,00.0,N,00.0,M,000.0,K*hh', carries: ['wind.true'] },
  MDA: {
    title: 'Weather together',
    shape: '$--MDA,30.00,I,1.000,B,00.0,C,00.0,C,,,,,000.0,T,000.0,M,00.0,N,00.0,M*hh',
    carries: ['weather', 'weather.pressure'],
  },
  XDR: {
    title: 'A measurement of any transducer',
    shape: '$--XDR,C,00.0,C,NAME01*hh',
    carries: [
      'attitude',
      'temperature',
      'weather',
      'weather.pressure',
      'weather.humidity',
      'tank',
      'battery',
    ],
  },
  RPM: { title: 'Revolutions', shape: '$--RPM,E,1,0000.0,000.0,A*hh', carries: ['engine'] },
  // others
  TTM: {
    title: 'A target that radar follows',
    shape: '$--TTM,00,00.00,000.0,T,00.0,000.0,T,0.00,00.0,N,NAME01,T,,hhmmss.ss,A*hh',
    carries: ['radar.targets'],
  },
  TLL: {
    title: 'Position of a target',
    shape: '$--TLL,00,ddmm.mmm,N,dddmm.mmm,W,NAME01,hhmmss.ss,T,*hh',
    carries: ['radar.targets'],
  },
  OSD: { title: "Own ship's course and speed", shape: '$--OSD,000.0,A,000.0,T,00.0,N,,,N*hh', carries: [] },
  RSD: {
    title: 'Radar: ranges, bearings, cursor',
    shape: '$--RSD,00.0,000.0,00.0,000.0,,,,,00.0,000.0,00.0,N,N*hh',
    carries: [],
  },
  VDM: {
    title: 'Other vessels (AIS)',
    shape: '!--VDM,1,1,,A,1234567890123456789012345678,0*hh',
    carries: ['ais', 'ais.classB', 'ais.names', 'ais.marks'],
  },
  VDO: {
    title: 'Own report (AIS)',
    shape: '!--VDO,1,1,,A,1234567890123456789012345678,0*hh',
    carries: ['ais.own'],
  },
  DSC: {
    title: 'A digital selective call',
    shape: '$--DSC,00,0000000000,00,00,00,0000000000,0000,,,R,E*hh',
    carries: ['calls'],
  },
  DSE: {
    title: 'More of a digital selective call',
    shape: '$--DSE,1,1,A,0000000000,00,00000000*hh',
    carries: ['calls'],
  },
  MOB: {
    title: 'Man overboard',
    shape: '$--MOB,00000,A,hhmmss,4,ddmmyy,hhmmss,ddmm.mmm,N,dddmm.mmm,W,000,00.0,*hh',
    carries: ['overboard'],
  },
  ALR: { title: 'Alarm', shape: '$--ALR,hhmmss.ss,000,A,V,An alarm in words*hh', carries: ['alarm'] },
  ACK: { title: 'Acknowledges an alarm', shape: '$--ACK,000*hh', carries: [] },
  TXT: { title: 'A text', shape: '$--TXT,01,01,00,A text of usual length*hh', carries: [] },
};
