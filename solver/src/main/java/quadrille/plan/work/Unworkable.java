package quadrille.plan.work;

import java.util.List;
import quadrille.facts.chart.Area;
import quadrille.facts.chart.Tooth;
import quadrille.facts.practice.Pass;
import quadrille.facts.practice.SelectionRule;

/**
 * Work for which no owned insert may be used.
 *
 * @param teeth the teeth concerned, sorted
 * @param why what stands in the way
 */
public record Unworkable(Area area, Pass pass, StepAspect aspect, List<Tooth> teeth, Why why) {

  public Unworkable {
    teeth = teeth.stream().sorted().toList();
  }

  /** What stands in the way. */
  public sealed interface Why {}

  /** No row of the selection table matches. */
  public record NoRow() implements Why {}

  /**
   * The row that decides has no insert that may be used.
   *
   * @param unusable the inserts that it names, each with what speaks against it
   * @param powerTooHigh whether the row asks for more than low power on an implant
   */
  public record NoInsert(SelectionRule rule, List<Unusable> unusable, boolean powerTooHigh)
      implements Why {
    public NoInsert {
      unusable = List.copyOf(unusable);
    }
  }

  /** An insert that may not be used. */
  public record Unusable(String insert, Obstacle obstacle) {}

  /** What speaks against an insert. */
  public enum Obstacle {
    NOT_OWNED,
    /** Sleeved, where the work is on natural teeth. */
    FOR_IMPLANTS_ONLY,
    /** Without a sleeve, where the work is on an implant. */
    BARE_METAL,
    NOT_FOR_THE_PASS,
    NOT_AT_THE_POWER,
    /** Wished not to be used. */
    NOT_WISHED
  }
}
