package quadrille.plan.anaesthesia;

import java.util.List;
import org.jspecify.annotations.Nullable;
import quadrille.facts.chart.Quadrant;
import quadrille.facts.chart.Tooth;
import quadrille.facts.practice.Injection;
import quadrille.facts.practice.Numbing;
import quadrille.plan.work.Target;

/**
 * An injection of the practice's table at a place in the mouth.
 *
 * @param injection the kind
 * @param quadrant where it is given
 * @param tooth the tooth, for a kind that is given tooth by tooth; otherwise null
 */
public record PlacedInjection(Injection injection, Quadrant quadrant, @Nullable Tooth tooth) {

  private static final int FIRST_MOLAR = 6;

  public PlacedInjection {
    if (injection.jaw() != quadrant.jaw()) {
      throw new IllegalArgumentException(
          "The injection (" + injection.name() + ") cannot be given in " + quadrant + ".");
    }
    if (injection.perTooth() != (tooth != null)) {
      throw new IllegalArgumentException(
          "The injection ("
              + injection.name()
              + (injection.perTooth() ? ") must name its tooth." : ") cannot name a tooth."));
    }
    if (tooth != null && (tooth.quadrant() != quadrant || !givenAt(injection, tooth.position()))) {
      throw new IllegalArgumentException(
          "The injection (" + injection.name() + ") cannot be given at tooth " + tooth + ".");
    }
  }

  /** Whether it numbs the target. */
  public boolean numbs(Target target) {
    Tooth at = target.tooth();
    if (at.quadrant().jaw() != injection.jaw()) {
      return false;
    }
    if (tooth != null) {
      return tooth.equals(at) && numbsOnItsSide(injection, at.position(), target.kind());
    }
    boolean side = injection.bothSides() || at.quadrant() == quadrant;
    return side && numbsOnItsSide(injection, at.position(), target.kind());
  }

  /** Volume in mL. */
  public double ml() {
    return injection.ml().value();
  }

  /** Whole seconds to give it: its volume at the practice's rate, and the handling. */
  public int seconds(Numbing numbing) {
    return seconds(injection, numbing);
  }

  /** In words, such as {@code inferior alveolar right} or {@code infiltration 12}. */
  public String words() {
    return injection.name() + " " + (tooth == null ? quadrant.side().word() : tooth.toString());
  }

  static int seconds(Injection injection, Numbing numbing) {
    return (int) Math.round(60 * injection.ml().value() / numbing.mlPerMinute().value())
        + numbing.handlingSeconds().asInt();
  }

  /** Whether a kind given tooth by tooth can be given at this position. */
  static boolean givenAt(Injection injection, int position) {
    return injection.pulp().contains(position)
        || injection.facial().contains(position)
        || injection.lingual().contains(position);
  }

  static boolean numbsOnItsSide(Injection injection, int position, Target.Kind kind) {
    List<Integer> positions =
        switch (kind) {
          case PULP -> injection.pulp();
          case FACIAL -> injection.facial();
          case LINGUAL -> injection.lingual();
          case MESIOBUCCAL_ROOT -> injection.mesiobuccalRoot() ? List.of(FIRST_MOLAR) : List.of();
        };
    return positions.contains(position);
  }
}
