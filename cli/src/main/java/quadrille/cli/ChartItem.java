package quadrille.cli;

import quadrille.facts.chart.Chart;

/**
 * One chart of many.
 *
 * @param place where it stands: a file, or a file and a line
 * @param reading reads it, on any thread
 */
record ChartItem(String place, Gathering.Reading<Chart> reading) {}
