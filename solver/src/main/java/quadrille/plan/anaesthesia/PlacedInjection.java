package quadrille.plan.anaesthesia;

import java.util.List;
import java.util.Objects;
import java.util.function.Predicate;
import org.jspecify.annotations.Nullable;
import quadrille.facts.chart.Quadrant;
import quadrille.facts.chart.Tooth;
import quadrille.facts.practice.Agent;
import quadrille.facts.practice.Figure;
import quadrille.facts.practice.Injection;
import quadrille.facts.practice.Numbing;
import quadrille.plan.work.Target;

/**
 * An injection of the practice's table at a place in the mouth.
 *
 * @param injection the kind
 * @param quadrant where it is given
 * @param tooth the tooth, for a kind that is given tooth by tooth; otherwise null
 * @param volume which of the kind's volumes, 0 for the smallest
 * @param agent what is injected; null where that is open, and then it numbs what it numbs with some
 *     agent
 */
public record PlacedInjection(
    Injection injection,
    Quadrant quadrant,
    @Nullable Tooth tooth,
    int volume,
    @Nullable Agent agent) {

  private static final int FIRST_MOLAR = 6;

  /** The smallest volume of whatever agent. */
  public PlacedInjection(Injection injection, Quadrant quadrant, @Nullable Tooth tooth) {
    this(injection, quadrant, tooth, 0, null);
  }

  public PlacedInjection {
    Objects.checkIndex(volume, injection.volumes().size());
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

  /** Whether it numbs the target, dependably. */
  public boolean numbs(Target target) {
    return reaches(target) && dependable(injection, target, row -> concerns(row, agent));
  }

  /** Whether it numbs the target dependably, whatever the agent. */
  public boolean numbsWithAnyAgent(Target target) {
    return reaches(target) && dependable(injection, target, row -> true);
  }

  PlacedInjection of(@Nullable Agent other) {
    return new PlacedInjection(injection, quadrant, tooth, volume, other);
  }

  /** Whether it may be given beside a numb other side, where front teeth may be numbed so. */
  public boolean acrossMidline() {
    return tooth != null && injection.acrossMidline().contains(tooth.position());
  }

  private boolean reaches(Target target) {
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
    return amount().ml().value();
  }

  Injection.Volume amount() {
    return injection.volumes().get(volume);
  }

  /** Whole seconds to give it: its volume at its own or the practice's rate, and the handling. */
  public int seconds(Numbing numbing) {
    Figure own = injection.mlPerMinute();
    double rate = own == null ? numbing.mlPerMinute().value() : own.value();
    return (int) Math.round(60 * ml() / rate) + numbing.handlingSeconds().asInt();
  }

  /** In words, such as {@code inferior alveolar right} or {@code infiltration 12}. */
  public String words() {
    return injection.name() + " " + (tooth == null ? quadrant.side().word() : tooth.toString());
  }

  private static boolean dependable(
      Injection injection, Target target, Predicate<Injection.NotDependable> holds) {
    Injection.Tissue tissue =
        switch (target.kind()) {
          case PULP, MESIOBUCCAL_ROOT -> Injection.Tissue.PULP;
          case FACIAL -> Injection.Tissue.FACIAL;
          case LINGUAL -> Injection.Tissue.LINGUAL;
        };
    for (Injection.NotDependable row : injection.notDependable()) {
      if (row.tissue() == tissue
          && row.positions().contains(target.tooth().position())
          && holds.test(row)) {
        return false;
      }
    }
    return true;
  }

  /** Whether a row speaks of an agent; where none is named, only one that speaks of all does. */
  static boolean concerns(Injection.NotDependable row, @Nullable Agent agent) {
    return row.drugs().isEmpty() || (agent != null && row.drugs().contains(agent.drug()));
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
