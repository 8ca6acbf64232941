package quadrille.plan.course;

import org.jspecify.annotations.Nullable;
import quadrille.facts.chart.Side;

/** Which side of the mouth a visit numbs. */
public enum NumbSide {
  RIGHT("right"),
  LEFT("left"),
  NONE("none"),
  /** Only where the practice relaxes the rule of one numb side. */
  BOTH("both");

  private final String word;

  NumbSide(String word) {
    this.word = word;
  }

  /** As written in files. */
  public String word() {
    return word;
  }

  /** The numb side of a side, or {@code NONE} for null. */
  public static NumbSide of(@Nullable Side side) {
    return side == null ? NONE : side == Side.RIGHT ? RIGHT : LEFT;
  }
}
