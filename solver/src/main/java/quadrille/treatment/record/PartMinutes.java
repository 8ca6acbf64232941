package quadrille.treatment.record;

import quadrille.facts.chart.AreaRef;
import quadrille.facts.practice.Pass;

/**
 * Working time spent on one pass of one area, without set-up, injections and close.
 *
 * @param minutes 0 or more
 */
public record PartMinutes(AreaRef area, Pass pass, double minutes) {}
