package quadrille.plan.work;

import java.util.List;
import quadrille.facts.chart.Area;
import quadrille.facts.chart.Tooth;
import quadrille.facts.practice.Pass;

/**
 * Work for which no owned insert may be used.
 *
 * @param teeth the teeth concerned, sorted
 * @param why what stands in the way
 * @param wouldDo what would help
 */
public record Unworkable(
    Area area, Pass pass, StepAspect aspect, List<Tooth> teeth, String why, String wouldDo) {

  public Unworkable {
    teeth = teeth.stream().sorted().toList();
  }

  /** The one-line message a person reads; teeth by ISO 3950 code. */
  public String message() {
    return area.ref()
        + ", "
        + pass.word()
        + ", "
        + aspect.word()
        + " ("
        + String.join(" ", teeth.stream().map(Tooth::toString).toList())
        + "): "
        + why
        + "; would do: "
        + wouldDo;
  }
}
