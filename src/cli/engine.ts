/** What the commands use of everything below them. */
export { explained } from '../checks/registry.ts';
export { diagnosticsText } from '../report/diagnostics.ts';
export { explanationList, explanationText } from '../report/explain.ts';
export { levelsText } from '../report/levels.ts';
export { gravestVerdict } from '../report/review-report.ts';
export { terminalReport } from '../report/terminal.ts';
export { InputError } from '../source/diagnostic.ts';
export { didYouMeanHelp } from '../source/did-you-mean.ts';
export { writeCompiled } from './compiled.ts';
export { sha256 } from './sha256.ts';
export { textOf } from './files.ts';
export { partsInFolders } from './parts-folders.ts';
export { partKinds } from '../parts/part.ts';
export { partJson, partsListText, partText } from '../report/part-text.ts';
export { startingText } from './new-project.ts';
export { mayPlot, namedOutputs } from './named-outputs.ts';
export { mayWrite, writeAll, writeNew } from './output-files.ts';
export { refusalJson } from '../report/refusal-json.ts';
export { reviewFormats } from '../report/review-formats.ts';
export { reviewJson } from '../report/review-json.ts';
export { isReviewed } from '../report/reviewed.ts';
export { reviewSummary } from '../report/review-summary.ts';
export { hanging } from '../report/wrap.ts';
export { isFailing } from '../checks/waiver.ts';
export { onlyNotes, skippedNotes, waiverNotes } from './check-notes.ts';
export { namedFiles } from './project-files.ts';
export { dayOf, limitsFor } from './review-settings.ts';
export { reviewAll, serveReviews } from './review-pool.ts';
export { wantedChecks } from './wanted-checks.ts';
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
export { parsedOption, parsedShare } from './parsed-option.ts';
export {
  defaultPolicies,
  designInFile,
  ownPolicies,
  policiesOf,
  projectInFile,
  reviewedDesign,
  reviewedFile,
  studied,
} from './review-file.ts';
export { bringupCard } from '../studies/bringup/card.ts';
export { bringupJson } from '../report/bringup-json.ts';
export { bringupPage } from '../report/bringup-page.ts';
export { pageHtml } from '../report/page-html.ts';
export { pageMarkdown } from '../report/page-markdown.ts';
export { pageText } from '../report/page-text.ts';
export { countRange, quantityEnds, quantityRange, wholeOption } from './quantity-range.ts';
export { capacitorsFor, stockIn } from './capacitors-for.ts';
export { usualMostCount, usualTolerance } from '../checks/bank-search.ts';
export { bankCurve, bankStudy } from '../studies/bank.ts';
export { drawerStudy } from '../studies/drawer.ts';
export { bankText, noFitWords } from '../report/bank-text.ts';
export { bankCurveSvg, bankCurveText } from '../report/bank-curve.ts';
export { drawerText } from '../report/drawer-text.ts';
export { bankCurveJson, bankJson, drawerJson } from '../report/bank-json.ts';
export { bankCapacitance } from '../checks/bank-search.ts';
export { readingsStudy } from '../studies/readings/study.ts';
export { readingsJson } from '../report/readings-json.ts';
export { readingsPage } from '../report/readings-page.ts';
export { windowStudy } from '../studies/window.ts';
export { windowText } from '../report/window-text.ts';
export { windowSvg } from '../report/window-svg.ts';
export { windowJson } from '../report/window-json.ts';
export { comparedFiles } from './compare-files.ts';
export { failOnOf } from './fail-on.ts';
export { compareFailures } from '../report/compare-failures.ts';
export { compareJson } from '../report/compare-json.ts';
export { compareFormats } from '../report/compare-formats.ts';
export { compareText } from '../report/compare-text.ts';
export { completedCommands } from './completed-commands.ts';
export { completionScripts } from '../report/completion.ts';
