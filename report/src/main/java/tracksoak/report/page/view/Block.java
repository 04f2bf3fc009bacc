package tracksoak.report.page.view;

/** One piece of a section. Each kind has its own template under {@code block/}. */
public sealed interface Block permits Prose, Bullets, Facts, Grid, Bars, Lanes, ChartView {}
