/** Which offer belongs to which value of the grammar. A value that is the writer's own, such as a new name, has none. */
import type { Boat } from '../boat.js';
import { keyOf, type Place } from '../place.js';
import type { Suggestion } from '../suggestion.js';
import * as devices from './devices.js';
import { endDevices, endPorts } from './ends.js';
import * as goods from './goods.js';
import { keyword } from './keywords.js';
import * as model from './model.js';
import type { Offer } from './offer.js';
import { paths } from './paths.js';
import * as places from './places.js';
import * as quantities from './quantities.js';
import * as signals from './signals.js';
import { rules } from './waivers.js';
import * as words from './words.js';

const OFFERS: Readonly<Record<string, Offer>> = {
  // files and the head
  'UseDecl.path': (_place, boat) => paths(boat),
  'AboardDecl.vessel': words.vessels,
  'VesselWord.value': words.vesselWords,
  'LabourProperty.unit': quantities.perUnits,
  'Allow.rule': rules,

  // models, ports and cables
  'ModelDecl.class': words.classes,
  'FamiliesProperty.families': goods.families,
  'SignalsProperty.signals': signals.signals,
  'SignalItem.signal': signals.rated,
  'BridgesProperty.media': model.bridged,
  'PassesProperty.from': model.passing,
  'PassesProperty.to': model.passing,
  'PassesProperty.messages': model.messages,
  'PositionDecl.joins': model.joining,
  'IngressProperty.codes': words.codes,
  'AsksProperty.codes': words.codes,
  'WordProperty.value': words.modelWords,
  'PortDecl.medium': words.media,
  'ServiceFeature.service': words.services,
  'BaudFeature.baud': quantities.baudRates,
  'MessageItem.message': model.messages,
  'HoldsFeature.types': quantities.fuseTypes,
  'PoeFeature.poeClass': quantities.poeClasses,
  'CableDecl.medium': words.media,
  'BulkProperty.unit': quantities.perUnits,
  'ResistanceProperty.per': quantities.perUnits,
  'ConnectsProperty.value': words.connections,

  // places and devices
  'ZoneDecl.exposure': places.exposures,
  'ZoneWord.value': words.zoneWords,
  'RunDecl.from': places.zones,
  'RunDecl.to': places.zones,
  'DeviceDecl.models': goods.models,
  'DeviceDecl.zone': places.zones,
  'DeviceDecl.back': places.zones,
  'NormallyProperty.position': words.positions,
  'SyncedProperty.devices': devices.sounders,

  // links, feeds and backbones
  'End.device': endDevices,
  'End.port': endPorts,
  'UsingClause.cable': goods.cables,
  'JoinClause.model': goods.joints,
  'JoinClause.zone': places.zones,
  'ByClause.runs': places.runs,
  'Protection.type': quantities.fuseTypes,
  'Protection.at': devices.fuseEnds,
  'NegativeDecl.banks': devices.batteries,
  'PreferDecl.signal': signals.given,
  'PreferDecl.sources': devices.preferred,
  'BackboneDecl.cable': goods.cables,
  'TerminatorItem.device': devices.terminators,
  'TeeItem.cable': goods.cables,
  'TeeItem.zone': places.zones,
  'SpanItem.from': places.zones,
  'SpanItem.to': places.zones,
  'SpanItem.cable': goods.cables,
  'TapItem.zone': places.zones,

  // needs, modes, views
  'NamedGoal.subjects': devices.subjects,
  'SpareGoal.medium': words.spareMedia,
  'SpareGoal.devices': devices.spareOn,
  'SourceRef.head': signals.sources,
  'SourceRef.tail': signals.tails,
  'ShowAbility.off': devices.offDevices,
  'HearAbility.signals': signals.heard,
  'LastAbility.mode': words.modes,
  'LastAbility.cranks': devices.engines,
  'OnItem.device': devices.loads,
  'SetDuty.device': devices.switches,
  'SetDuty.position': words.positions,
  'ChargeItem.device': devices.chargers,
  'DayPart.mode': words.modes,
  'ViewDecl.screen': devices.screens,
  'Pane.name': words.paneNames,

  // options
  'AddEdit.backbone': words.backbones,
  'AddEdit.beside': devices.besides,
  'ChangeEdit.device': devices.changeable,
  'ChangeEdit.model': goods.changes,

  // numbers and their units
  'Quantity.value': quantities.figures,
  'Quantity.unit': quantities.units,
  'Interval.unit': quantities.units,
  'WireSize.value': quantities.sizes,
  'WireSize.unit': quantities.sizeUnits,
};

/** Keywords come after values, and what begins something new after what goes on. */
const KEYWORD = 10;
const BEGINS = 20;

/** What may stand at a place. */
export function suggestionsAt(place: Place, boat: Boat): readonly Suggestion[] {
  const key = keyOf(place);
  const isValue = place.kind === 'value';
  const found = isValue
    ? (OFFERS[key]?.(place, boat) ?? [])
    : place.property === 'unit'
      ? place.word === 'in'
        ? quantities.inch(place, boat)
        : []
      : keyword(place, boat);
  const more = (isValue || place.property === 'unit' ? 0 : KEYWORD) + (place.continues ? 0 : BEGINS);
  return found.map((suggestion) => ({
    ...suggestion,
    rank: (suggestion.rank ?? 0) + more,
    span: suggestion.span ?? place.span,
  }));
}

/** Whether a place is for the unit of a number. */
export const isUnit = (place: Place): boolean =>
  place.property === 'unit' && place.part.type !== 'LabourProperty';
