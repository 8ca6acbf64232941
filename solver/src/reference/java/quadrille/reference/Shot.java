package quadrille.reference;

import java.util.List;
import org.jspecify.annotations.Nullable;
import quadrille.facts.chart.Jaw;
import quadrille.facts.chart.Quadrant;
import quadrille.facts.chart.Tooth;
import quadrille.facts.practice.Agent;
import quadrille.facts.practice.Figure;
import quadrille.facts.practice.Injection;
import quadrille.facts.practice.Practice;
import quadrille.facts.practice.Technique;
import quadrille.plan.work.Target;

/**
 * An injection of the practice's table at a place, in a volume, with an agent.
 *
 * @param number by the table, then right before left, then from the midline, then by volume; a
 *     second agent's after all of the first's
 * @param tooth where it is given tooth by tooth
 */
record Shot(
    int number,
    Injection kind,
    Quadrant quadrant,
    @Nullable Tooth tooth,
    Injection.Volume volume,
    Agent agent) {

  boolean numbs(Target target) {
    Tooth at = target.tooth();
    boolean here =
        tooth != null
            ? tooth.equals(at)
            : at.quadrant().jaw() == kind.jaw() && (kind.bothSides() || at.quadrant() == quadrant);
    Injection.Tissue tissue =
        switch (target.kind()) {
          case PULP, MESIOBUCCAL_ROOT -> Injection.Tissue.PULP;
          case FACIAL -> Injection.Tissue.FACIAL;
          case LINGUAL -> Injection.Tissue.LINGUAL;
        };
    boolean doubtful =
        kind.notDependable().stream()
            .filter(row -> row.tissue() == tissue && row.positions().contains(at.position()))
            .anyMatch(row -> row.drugs().isEmpty() || row.drugs().contains(agent.drug()));
    List<Integer> positions =
        switch (target.kind()) {
          case PULP -> kind.pulp();
          case FACIAL -> kind.facial();
          case LINGUAL -> kind.lingual();
          case MESIOBUCCAL_ROOT -> kind.mesiobuccalRoot() ? List.of(6) : List.of();
        };
    return here && !doubtful && positions.contains(at.position());
  }

  /** Whether it makes its side the numb one (H1). */
  boolean binds(Practice practice) {
    boolean across =
        practice.appointments().midlineInfiltration()
            && tooth != null
            && kind.acrossMidline().contains(tooth.position());
    return !kind.bothSides() && !across;
  }

  boolean numbsPulp() {
    return !kind.pulp().isEmpty() || kind.mesiobuccalRoot();
  }

  boolean deepBlock() {
    return kind.technique() == Technique.BLOCK && !kind.superficial();
  }

  double ml() {
    return volume.ml().value();
  }

  long microlitres() {
    return Math.round(1000 * ml());
  }

  int seconds(Practice practice) {
    Figure own = kind.mlPerMinute();
    double rate = (own == null ? practice.numbing().mlPerMinute() : own).value();
    return (int) Math.round(60 * ml() / rate) + practice.numbing().handlingSeconds().asInt();
  }

  /** Seconds from the end of the injection until a target is numb. */
  int onset(Target.Kind target) {
    double minutes = agent.onsetMinutes().get(kind.technique()).value();
    Figure own = pulpal(target) ? kind.pulpOnsetMinutes() : kind.tissueOnsetMinutes();
    return (int) Math.round(60 * (own == null ? minutes : Math.max(minutes, own.value())));
  }

  /**
   * How many minutes of numb pulp the volume is enough for; infinite where the agent alone says.
   */
  double volumeLasts() {
    Figure most = volume.pulpalMinutes();
    return most == null ? Double.POSITIVE_INFINITY : most.value();
  }

  private double agentLasts() {
    return kind.technique() == Technique.BLOCK
        ? blockLasts(agent, deepBlock() && kind.jaw() == Jaw.LOWER && numbsPulp())
        : agent.pulpalMinutes().get(kind.technique()).value();
  }

  /** Minutes that pulp stays numb after a block, which lower teeth may have for longer. */
  static double blockLasts(Agent agent, boolean lower) {
    Figure own = lower ? agent.lowerBlockPulpalMinutes() : null;
    return (own == null ? agent.pulpalMinutes().get(Technique.BLOCK) : own).value();
  }

  /** Seconds from the end of the injection for which a target stays numb. */
  int lasts(Target.Kind target) {
    double minutes =
        pulpal(target) ? Math.min(agentLasts(), volumeLasts()) : agent.softTissueMinutes().value();
    return (int) Math.round(60 * minutes);
  }

  /** Seconds until all that it can numb is numb; the longest is given first. */
  int longestOnset() {
    boolean tissue = !kind.facial().isEmpty() || !kind.lingual().isEmpty();
    return Math.max(
        numbsPulp() ? onset(Target.Kind.PULP) : 0, tissue ? onset(Target.Kind.FACIAL) : 0);
  }

  /** The same injection, given on a side of its jaw. */
  Shot on(quadrille.facts.chart.Side side) {
    return new Shot(number, kind, Quadrant.of(kind.jaw(), side), tooth, volume, agent);
  }

  private static boolean pulpal(Target.Kind kind) {
    return kind == Target.Kind.PULP || kind == Target.Kind.MESIOBUCCAL_ROOT;
  }
}
