/** Who draws: the server itself, or a thread beside it, so that nobody who types waits for a drawing. */
import type { AnalyseOptions } from '../../../../checks/analyse.js';
import type { Analysis } from '../../../../checks/analysis.js';
import type { DrawingFile } from '../../../../documents/formats/files.js';
import type { KeptPlaces } from '../../../../documents/sheet.js';
import type { Vessel } from '../../../../vessel/model.js';
import type { Origin } from '../../../../vessel/origin.js';
import type { DrawnDrift, ExportFormat, Reach, SheetName, SheetPicture } from '../protocol.js';
import type { Packed } from './packed.js';

/** What is drawn. The same object as long as it says the same. */
export interface Subject {
  readonly vessel: Vessel;
  /** With what it is analysed; plain data as the vessel is. */
  readonly judged: AnalyseOptions;
  /** For whoever draws in the server itself. */
  readonly analysis: () => Analysis;
}

/** What stands in the title block, beside what the vessel says of herself. */
export interface Title {
  /** The file's name. */
  readonly file: string;
  /** The tool with its version. */
  readonly version: string | undefined;
  /** Undefined where the vessel says it herself, or nobody does. */
  readonly revision?: string | undefined;
}

/** A sheet, and everything that it shows. */
export interface DrawnSheet extends SheetName {
  /** Of the picture: equal keys, equal pictures. */
  readonly key: string;
  readonly origins: readonly Origin[];
  readonly picture: Packed<SheetPicture>;
}

/** The sheets, and where boxes stand on them. */
export interface Drawn {
  readonly sheets: readonly DrawnSheet[];
  readonly places: Packed<KeptPlaces>;
  /** Of the sheets: equal keys, equal sheets. */
  readonly key: string;
}

/** Where boxes stand; undefined where they find places of their own. */
export type Standing = Packed<KeptPlaces> | undefined;

export interface Wanted {
  readonly format: ExportFormat;
  /** The only sheet that is wanted, by its id; undefined for the set. */
  readonly sheet: string | undefined;
}

/** Whether it takes fonts, and a writer that not everyone who draws has. */
export const isHeavy = (format: ExportFormat): boolean => format === 'pdf' || format === 'png';

export interface Artist {
  /** Whether the server can do nothing else while it draws. */
  readonly blocks: boolean;
  readonly draw: (subject: Subject, title: Title, places: Standing) => Promise<Drawn>;
  /** What a device reaches; undefined for one that gives nothing to screens. */
  readonly reach: (subject: Subject, origin: Origin) => Promise<Reach | undefined>;
  /** What laying out anew would save. */
  readonly drift: (subject: Subject, places: Standing) => Promise<readonly DrawnDrift[]>;
  /** The files of a set. Undefined for a format that cannot be written here. */
  readonly write: (
    subject: Subject,
    title: Title,
    wanted: Wanted,
    places: Standing,
  ) => Promise<readonly DrawingFile[] | undefined>;
}
