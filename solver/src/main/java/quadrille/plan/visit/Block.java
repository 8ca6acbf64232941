package quadrille.plan.visit;

import quadrille.facts.chart.Area;
import quadrille.facts.practice.Pass;

/**
 * All steps of one pass of one area, which stay in one visit (H6).
 *
 * @param index position in the case's list of blocks
 * @param areaIndex position of the area in the case's list of areas
 * @param steps indexes of the steps
 */
public record Block(int index, Area area, int areaIndex, Pass pass, StepSet steps) {

  @Override
  public String toString() {
    return area.ref() + " " + pass.word();
  }
}
