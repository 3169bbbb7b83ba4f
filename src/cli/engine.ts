/**
 * What the commands use of everything below them. The build makes one script of it with its compiled code beside it, so that a
 * start need not compile it: nothing of it may be imported by another way, or there would be two of it.
 */
export { explained } from '../checks/registry.ts';
export { jsonReport } from '../report/json.ts';
export { diagnosticsText } from '../report/diagnostics.ts';
export { explanationList, explanationText } from '../report/explain.ts';
export { levelsText } from '../report/levels.ts';
export { gravestVerdict } from '../report/review-report.ts';
export { terminalReport } from '../report/terminal.ts';
export { InputError } from '../source/diagnostic.ts';
export { didYouMeanHelp } from '../source/did-you-mean.ts';
export { writeCompiled } from './compiled.ts';
export { textOf } from './files.ts';
export { partsInFolders } from './parts-folders.ts';
export { partKinds } from '../parts/part.ts';
export { partJson, partsListText, partText } from '../report/part-text.ts';
export { startingText, writeNew, writeOver } from './new-project.ts';
export { partsOnShelf } from './parts-shelf.ts';
export { latchMap, startupEvents } from '../studies/startup.ts';
export { latchMapText, recordingCsv, startupJson, startupText } from '../report/startup-text.ts';
export { latchMapSvg, recordingSvg } from '../report/startup-svg.ts';
export { sweptFile } from './sweep-file.ts';
export { sweepCsv, sweepJson } from '../report/sweep-data.ts';
export { sweepSvg } from '../report/sweep-svg.ts';
export { sweepText } from '../report/sweep-text.ts';
export { spreadOfFile } from './spread-file.ts';
export { spreadCsv, spreadJson } from '../report/spread-data.ts';
export { spreadSvg } from '../report/spread-svg.ts';
export { spreadText } from '../report/spread-text.ts';
export { quantityRange } from './quantity-range.ts';
export { parsedOption } from './parsed-option.ts';
export { defaultPolicies, designInFile, reviewedFile, studied } from './review-file.ts';
