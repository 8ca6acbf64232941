package quadrille.plan.work;

import java.util.List;
import quadrille.facts.chart.Aspect;

/** Which aspect a step sweeps. */
public enum StepAspect {
  FACIAL("facial"),
  LINGUAL("lingual"),
  BOTH("both");

  private final String word;

  StepAspect(String word) {
    this.word = word;
  }

  /** The aspects of teeth that are swept. */
  public List<Aspect> aspects() {
    return switch (this) {
      case FACIAL -> List.of(Aspect.FACIAL);
      case LINGUAL -> List.of(Aspect.LINGUAL);
      case BOTH -> List.of(Aspect.FACIAL, Aspect.LINGUAL);
    };
  }

  /** As written in files. */
  public String word() {
    return word;
  }
}
