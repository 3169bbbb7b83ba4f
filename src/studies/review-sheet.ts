import type { Policies } from '../checks/policy.ts';
import type { Design } from '../project/design.ts';
import { circuitOutline, partsText, type CircuitOutline } from './circuit-outline.ts';
import { switchOnWaveforms, type SwitchOnWaveforms } from './switch-on-waveforms.ts';
import { voltageMargins, type VoltageMargins } from './voltage-margins.ts';

/** What a page with drawings shows of a design beside its review. */
export interface ReviewSheet {
  readonly outline: CircuitOutline;
  /** Levels that the review was judged by, overrides of the project merged in. */
  readonly policies: Policies;
  readonly margins: VoltageMargins;
  /** Undefined where the time domain was left out. */
  readonly waveforms?: SwitchOnWaveforms;
  /** The data of the parts, to be identified by a hash. */
  readonly parts: string;
}

/**
 * Drawings' data of a design.
 *
 * @param policies    levels by check id, overrides of the project merged in
 * @param closedForm  leave out what needs the time domain
 * Errors: DesignError where nothing can be computed at the project's own voltage.
 */
export function reviewSheet({ design, policies, closedForm }: { design: Design; policies: Policies; closedForm: boolean }): ReviewSheet {
  return {
    outline: circuitOutline(design),
    policies,
    margins: voltageMargins({ design, policies }),
    ...(closedForm ? {} : { waveforms: switchOnWaveforms(design) }),
    parts: partsText(design),
  };
}
