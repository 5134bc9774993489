/**
 * What the panels see of the app: the design, how to change it, what is pointed at. The app's store fulfils
 * this interface and hands itself down through the context; panels never import the app.
 */
import { createContext, useContext } from 'react';
import { useStore, type StoreApi } from 'zustand';
import type { Design, DisplayUnit, SlotId } from '../design/document.ts';
import type { WorkPlan } from './plan/workPlan.ts';
import type { Report } from '../plan/report.ts';

export const STATIONS = ['blank', 'rings', 'form', 'plan', 'show'] as const;
export type Station = (typeof STATIONS)[number];

export interface Variant {
  readonly id: string;
  readonly name: string;
  readonly design: Design;
}

/** What undo and redo go over: every variant, and which one is edited. */
export interface Work {
  readonly variants: readonly Variant[];
  readonly active: number;
}

/** A ring or a crossing under the pointer or the keyboard's focus, on the stage, the map or in a list. */
export type Pointed =
  | { readonly kind: 'ring'; readonly slot: SlotId }
  | {
      readonly kind: 'crossing';
      readonly under: SlotId;
      readonly over: SlotId;
      readonly z_mm: number;
      readonly azimuth_deg: number;
    };

export type ReportState =
  | { readonly state: 'ready'; readonly report: Report; readonly plan: WorkPlan }
  | { readonly state: 'failed'; readonly reason: string };

export interface LastReady {
  readonly design: Design;
  readonly report: Report;
  readonly plan: WorkPlan;
}

export interface Bench {
  readonly work: Work;
  /** The design being edited: the active variant's. */
  readonly design: Design;
  readonly station: Station;
  /** Id of the set that the Rings station edits. */
  readonly selectedSet: string | null;
  readonly pointed: Pointed | null;
  /** Place on the line of moments: a whole number n is moment n complete. */
  readonly position: number;
  readonly playing: boolean;
  /** Reports that are ready, by the document they were worked out for. */
  readonly reports: ReadonlyMap<Design, ReportState>;
  /** What was ready last, and for which document. */
  readonly lastReady: LastReady | null;

  /**
   * Changes the design; null when done, else why the new document cannot be (the old one stays). Changes with
   * the same gesture fold into one undo step until endGesture or another change.
   */
  readonly edit: (label: string, change: (design: Design) => Design, gesture?: string) => string | null;
  readonly endGesture: () => void;
  readonly undo: () => void;
  readonly redo: () => void;
  readonly setUnit: (unit: DisplayUnit) => void;
  /** Changes the work as a whole: variants added, renamed, chosen. */
  readonly editWork: (label: string, change: (work: Work) => Work, gesture?: string) => string | null;
  /** Variants side by side: the design as it is, and its sets of one angle at each of the others. */
  readonly compareAngles: (of_deg: number, at_deg: readonly number[]) => void;
  /**
   * The design beside one piece as it may be sawn; again: the next piece. With `times` the piece that stands there, its
   * errors drawn that many times as large as they are.
   */
  readonly compareAsBuilt: (times?: number) => void;
  readonly addVariant: () => void;
  /** Which variant is edited; no undo step. */
  readonly chooseVariant: (index: number) => void;
  readonly selectSet: (id: string | null) => void;
  /** Moves a set along the axis unless it is locked; held to the blank. */
  readonly moveSet: (id: string, center_mm: number, gesture: string) => void;
  readonly point: (target: Pointed | null) => void;
  readonly setPosition: (position: number) => void;
  readonly stepMoment: (by: number) => void;
  readonly setPlaying: (playing: boolean) => void;
}

/** The part of a store that readers need; a wider store fits. */
export type BenchStore = Pick<StoreApi<Bench>, 'getState' | 'getInitialState' | 'subscribe'>;

export const BenchContext = createContext<BenchStore | null>(null);

export function useBenchStore(): BenchStore {
  const store = useContext(BenchContext);
  if (!store) throw new Error('a panel stands outside the BenchContext');
  return store;
}

export function useBench<T>(select: (bench: Bench) => T): T {
  return useStore(useBenchStore(), select);
}
