/** The checks that the analysis of a vessel runs, in the order in which they report. */
import { coaxLoss } from './antennas/rules/coaxLoss.js';
import { backboneLength } from './buses/rules/backboneLength.js';
import { current } from './buses/rules/current.js';
import { deviceLoad } from './buses/rules/deviceLoad.js';
import { dropLength } from './buses/rules/dropLength.js';
import { dropTotal } from './buses/rules/dropTotal.js';
import { ground } from './buses/rules/ground.js';
import { instance } from './buses/rules/instance.js';
import { message } from './buses/rules/message.js';
import { nodeCount } from './buses/rules/nodeCount.js';
import { overVoltage } from './buses/rules/overVoltage.js';
import { power as busPower } from './buses/rules/power.js';
import { tapFuse } from './buses/rules/tapFuse.js';
import { terminators } from './buses/rules/terminators.js';
import { utilisation } from './buses/rules/utilisation.js';
import { voltage } from './buses/rules/voltage.js';
import { fill } from './cables/rules/fill.js';
import { head } from './cables/rules/head.js';
import { noRoute } from './cables/rules/noRoute.js';
import { notSealed } from './cables/rules/notSealed.js';
import { tooShort } from './cables/rules/tooShort.js';
import { noSource } from './data/rules/noSource.js';
import { rate } from './data/rules/rate.js';
import { twoSources } from './data/rules/twoSources.js';
import { dsc } from './data/rules/dsc.js';
import { unusedCable } from './usage/rules/unusedCable.js';
import { unusedDevice } from './usage/rules/unusedDevice.js';
import { unusedModel } from './usage/rules/unusedModel.js';
import { baud } from './lines/rules/baud.js';
import { budget } from './lines/rules/budget.js';
import { listeners } from './lines/rules/listeners.js';
import { loop as messageLoop } from './lines/rules/loop.js';
import { sentence } from './lines/rules/sentence.js';
import { signalling } from './lines/rules/signalling.js';
import { twoTalkers } from './lines/rules/twoTalkers.js';
import { notMet } from './needs/rules/notMet.js';
import { notVisible } from './needs/rules/notVisible.js';
import { familyMix } from './network/rules/familyMix.js';
import { isolated } from './network/rules/isolated.js';
import { loop } from './network/rules/loop.js';
import { poeBudget } from './network/rules/poeBudget.js';
import { poePassive } from './network/rules/poePassive.js';
import { throughPower } from './network/rules/throughPower.js';
import { tooLong } from './network/rules/tooLong.js';
import { antennaSpacing } from './places/rules/antennaSpacing.js';
import { compass } from './places/rules/compass.js';
import { ingress } from './places/rules/ingress.js';
import { alwaysOn } from './power/rules/alwaysOn.js';
import { ampacity } from './power/rules/ampacity.js';
import { chemistry } from './power/rules/chemistry.js';
import { collapse } from './power/rules/collapse.js';
import { cranking } from './power/rules/cranking.js';
import { commonNegative } from './power/rules/commonNegative.js';
import { endurance } from './power/rules/endurance.js';
import { fuseLocation } from './power/rules/fuseLocation.js';
import { fuseNotStandard } from './power/rules/fuseNotStandard.js';
import { fuseOverDevice } from './power/rules/fuseOverDevice.js';
import { fuseOverWire } from './power/rules/fuseOverWire.js';
import { fuseUnderLoad } from './power/rules/fuseUnderLoad.js';
import { fuseVoltage } from './power/rules/fuseVoltage.js';
import { ignition } from './power/rules/ignition.js';
import { interrupting } from './power/rules/interrupting.js';
import { loop as supplyLoop } from './power/rules/loop.js';
import { minSize } from './power/rules/minSize.js';
import { noDisconnect } from './power/rules/noDisconnect.js';
import { noFeed } from './power/rules/noFeed.js';
import { noise } from './power/rules/noise.js';
import { panelRating } from './power/rules/panelRating.js';
import { selectivity } from './power/rules/selectivity.js';
import { stud } from './power/rules/stud.js';
import { switchRating } from './power/rules/switchRating.js';
import { unprotected } from './power/rules/unprotected.js';
import { undervoltage } from './power/rules/undervoltage.js';
import { voltageDrop } from './power/rules/voltageDrop.js';
import { wireNotStandard } from './power/rules/wireNotStandard.js';
import { wrongVoltage } from './power/rules/wrongVoltage.js';
import type { Rule } from './rule.js';
import { hostGrade } from './sonar/rules/hostGrade.js';
import { noHost } from './sonar/rules/noHost.js';
import { power } from './sonar/rules/power.js';
import { sameBand } from './sonar/rules/sameBand.js';
import { direction } from './wiring/rules/direction.js';
import { medium } from './wiring/rules/medium.js';
import { noFreePort } from './wiring/rules/noFreePort.js';
import { portTaken } from './wiring/rules/portTaken.js';
import { whichPort } from './wiring/rules/whichPort.js';

export const CHECKS: readonly Rule[] = [
  medium,
  direction,
  portTaken,
  noFreePort,
  whichPort,
  familyMix,
  loop,
  isolated,
  throughPower,
  tooLong,
  poeBudget,
  poePassive,
  twoTalkers,
  baud,
  signalling,
  listeners,
  budget,
  messageLoop,
  sentence,
  hostGrade,
  noHost,
  sameBand,
  power,
  noRoute,
  tooShort,
  notSealed,
  fill,
  head,
  noise,
  coaxLoss,
  noFeed,
  wrongVoltage,
  unprotected,
  fuseOverWire,
  fuseOverDevice,
  fuseUnderLoad,
  fuseLocation,
  fuseVoltage,
  fuseNotStandard,
  wireNotStandard,
  interrupting,
  selectivity,
  minSize,
  ampacity,
  voltageDrop,
  undervoltage,
  collapse,
  cranking,
  panelRating,
  switchRating,
  noDisconnect,
  alwaysOn,
  commonNegative,
  supplyLoop,
  stud,
  terminators,
  backboneLength,
  dropLength,
  dropTotal,
  nodeCount,
  busPower,
  voltage,
  overVoltage,
  current,
  tapFuse,
  ground,
  deviceLoad,
  instance,
  utilisation,
  message,
  ingress,
  ignition,
  compass,
  antennaSpacing,
  dsc,
  noSource,
  rate,
  twoSources,
  chemistry,
  endurance,
  notVisible,
  notMet,
  unusedDevice,
  unusedModel,
  unusedCable,
];
