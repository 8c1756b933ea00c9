export type { Area, AreaPart, AreaShape, Joining } from './areas/area.ts';
export { type GuideFit, rowsAt } from './areas/guidedFilter.ts';
export { fillOutlines } from './areas/outline.ts';
export { guideOf } from './areas/rasterise.ts';
export type { Census } from './census/census.ts';
export { takeCensus } from './census/take.ts';
export {
  type Consistency,
  consistencyOf,
  type OffWork,
  type SeriesAspect,
  seriesIntent,
} from './class/consistency.ts';
export { type FindingGroup, groupByFinding } from './class/grouping.ts';
export { type Corner, type Corners, homography, project } from './class/homography.ts';
export { byFileName, namesInFile } from './class/names.ts';
export { type SeriesPlane, seriesPlane } from './class/plane.ts';
export { type FoundSheet, findSheet, type TakenOut, takeOut } from './class/sheet.ts';
export { SERIES_NEEDED, type SeriesStatistics, seriesStatistics } from './class/statistics.ts';
export { towardsSeries } from './class/towards.ts';
export {
  type LineFinding,
  type LineWork,
  type SeriesMeasure,
  seriesMeasures,
  strengthsOf,
  workOfLine,
} from './class/work.ts';
export { ciede2000 } from './colour/ciede2000.ts';
export { lightness, linearToCielab, luminance, luminanceOf, xyzToCielab } from './colour/cielab.ts';
export { srgbCode } from './colour/codes.ts';
export { cssHex } from './colour/css.ts';
export { fromSrgb, mapToGamut } from './colour/gamut.ts';
export { gamutMapper } from './colour/gamutMapper.ts';
export { invert, type Matrix, multiply, type Triple, transform } from './colour/matrix.ts';
export {
  deltaOk,
  linearInto,
  linearToOklab,
  oklabInto,
  oklabToLinear,
  oklabToOklch,
  oklchToOklab,
  xyzToOklab,
} from './colour/oklab.ts';
export { A98_RGB, DELIVERY_SPACES, DISPLAY_P3, SRGB, SRGB_TO_XYZ, XYZ_TO_SRGB } from './colour/rgbSpaces.ts';
export type { ColourSpace, Curve } from './colour/space.ts';
export { decode, encode, linearTable, linearTables, linearToSrgb, srgbToLinear } from './colour/transfer.ts';
export { colourName, hueName } from './colour/words.ts';
export type { Drawing, Paint, Shape, Tone } from './drawings/drawing.ts';
export { type ReadyRecipe, readyRecipe, stepRunner } from './edits/compile.ts';
export { editCensus } from './edits/editCensus.ts';
export { type EditTarget, rowEditor } from './edits/editRows.ts';
export { editView, viewEditor } from './edits/editView.ts';
export { STEPS, stepKind } from './edits/list.ts';
export { liveMeasures } from './edits/liveMeasures.ts';
export { checkRecipe } from './edits/recipeSchema.ts';
export { statisticsOf } from './edits/statistics.ts';
export {
  EMPTY_RECIPE,
  type Parameter,
  type Recipe,
  type Step,
  type StepData,
  type StepId,
  type StepKind,
  settingOf,
} from './edits/step.ts';
export { stepSentence } from './edits/stepSentence.ts';
export { type Survey, takeSurvey } from './edits/survey.ts';
export { type Answer, settles } from './findings/answer.ts';
export type { Finding, Origin, Place, Swatch } from './findings/finding.ts';
export { leftOutOf } from './findings/leftOut.ts';
export { repaintPlaces } from './findings/repaint.ts';
export { WORKS_NEEDED } from './findings/thresholds/threshold.ts';
export { countWord, listOf, percent, sentence, unitAfter } from './findings/wording.ts';
export { drawGuide, hexIn } from './guide/guide.ts';
export { type Calming, calmLoss, LEFT_OVER } from './handover/calm.ts';
export { fileName, type NameWords, nameTrouble } from './handover/fileName.ts';
export { differencesOf, type GamutLook, gamutLook, LOST, viewInSpace } from './handover/gamutLook.ts';
export { type HandoverRows, handoverRows, lightRows, type RowsTarget } from './handover/handoverRows.ts';
export type { LightRow } from './handover/lanczos.ts';
export { type PaletteEntry, paletteOf } from './handover/palette.ts';
export { paletteCss, paletteTokens } from './handover/paletteText.ts';
export {
  depthIn,
  ENDINGS,
  type HandoverSettings,
  type MetadataSettings,
  PRESETS,
  type PresetName,
  type ProcessSettings,
  type ProfileSettings,
  type SizeSettings,
} from './handover/settings.ts';
export { checkSettings } from './handover/settingsSchema.ts';
export { type Box, planSize, type SizePlan } from './handover/sizePlan.ts';
export { editStages, SHORTEST_STAND, workingSteps } from './handover/stages.ts';
export {
  bakeTable,
  type DeliverySpace,
  type RecipeTable,
  readTable,
  tableNote,
  tableSpace,
  tableSteps,
} from './handover/table.ts';
export type { Baseline, BaselineRange } from './intent/baseline.ts';
export { blendMood } from './intent/blendMood.ts';
export type * from './intent/intent.ts';
export { OPEN_INTENT } from './intent/intent.ts';
export { type BaselineWork, makeBaseline } from './intent/makeBaseline.ts';
export { MOOD_AXES, MOOD_AXIS_NAMES, type MoodAxisKind } from './intent/moodAxes.ts';
export { type MoodDistance, type MoodMeasures, moodDistance } from './intent/moodDistance.ts';
export { MOOD_WORDS, type MoodWord, placeOf } from './intent/moodWords.ts';
export { type Checked, checkBaseline, checkIntent } from './intent/schema.ts';
export { BLEND_MODES, type BlendMode } from './layers/blend.ts';
export { compositeStack, type LayerCanvas, layerCanvas } from './layers/canvas.ts';
export { largestDifference, whereDifferent } from './layers/compare.ts';
export { differenceLayer } from './layers/difference.ts';
export { doesSentence, type LayerDoes, whatLayersDo } from './layers/does.ts';
export { measureSmall, type SmallMeasures } from './layers/measures.ts';
export type { Meeting, Operator } from './layers/meet.ts';
export { type FlattenStage, flattenPlan, STAGES, type StageName } from './layers/plan.ts';
export {
  IDLE_WORDS,
  type IdleReason,
  type LayerReading,
  type LayersReading,
  layersReader,
  readLayers,
} from './layers/read.ts';
export { reduceLayer, weighingSize } from './layers/reduce.ts';
export {
  type Choices,
  type OptionPicture,
  optionPictures,
  smallComposite,
  smallStack,
} from './layers/small.ts';
export type { LayerGroup, LayerNode, LayerStack, PaintedLayer } from './layers/stack.ts';
export {
  findNode,
  type LayerSetting,
  layerSweep,
  type SweepCell,
  sweepAxes,
  turnHues,
} from './layers/sweep.ts';
export {
  countThinned,
  type Thinned,
  type Thinning,
  thinStack,
  thinTree,
  throughNext,
} from './layers/thin.ts';
export { sixDigits } from './numbers/sixDigits.ts';
export { carryArea, carryIntent, carryRecipe } from './progress/carry.ts';
export { type Change, changeBetween } from './progress/change.ts';
export { type Comparison, compareVersions, VISIBLE } from './progress/compare.ts';
export {
  type CurvePoint,
  type Diminishing,
  type ProgressCurve,
  progressCurve,
  type Stage,
} from './progress/curve.ts';
export type { Look } from './progress/look.ts';
export { type Outcome, outcomeOf } from './progress/outcome.ts';
export { carryOutline, type Pose, SAME_POSE, toEarlier, toLater } from './progress/pose.ts';
export { type Registration, register } from './progress/register.ts';
export { type Strip, type StripPicture, stripLayout } from './progress/strip.ts';
export { stripSvg } from './progress/stripSvg.ts';
export { changeSentence } from './progress/words.ts';
export { type LightOption, lightSheet } from './proposal/lightSheet.ts';
export { type LightParts, lightParts, turnSteps } from './proposal/lightTurn.ts';
export { type Measured, measuredIn } from './proposal/measured.ts';
export {
  atOption,
  type Option,
  type OptionAxis,
  type OptionSheet,
  optionAxes,
  optionSheet,
} from './proposal/options.ts';
export { propose, runToEnd, searchRecipe } from './proposal/propose.ts';
export type * from './proposal/types.ts';
export { CHECK_SCHEMA, checkLine } from './readings/checkLine.ts';
export { firstLook } from './readings/detail/focus.ts';
export {
  type Examination,
  type ExaminedMeasure,
  type ExaminedReading,
  examine,
  examineReading,
  type Previous,
  rank,
} from './readings/examine.ts';
export { readingInput } from './readings/input.ts';
export { explainPlace } from './readings/light/explain.ts';
export { lightOf } from './readings/light/kind.ts';
export { readLight } from './readings/light/light.ts';
export { outlineOf } from './readings/light/outline.ts';
export { shadeOf, wayOf } from './readings/light/shadeColours.ts';
export { SITUATIONS, type Situation } from './readings/light/situations.ts';
export { lightFromTaps, type TappedLight } from './readings/light/taps.ts';
export type { Explanation, LightPlace, LightResult } from './readings/light/types.ts';
export type { LightValue } from './readings/light/value.ts';
export { READINGS } from './readings/list.ts';
export { moodExample } from './readings/mood/measure.ts';
export type { Evidence, Measure, Reading, ReadingId, ReadingInput, ReadingKind } from './readings/reading.ts';
export { CLOSE_PIXELS, makeCloseView } from './views/average.ts';
export { makeViews, viewsOf } from './views/makeViews.ts';
export type { PictureFacts, Raster } from './views/raster.ts';
export { makeWholeView, reduceView } from './views/resample.ts';
export type { Field, View, Views } from './views/view.ts';
