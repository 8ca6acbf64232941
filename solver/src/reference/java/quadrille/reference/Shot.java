package quadrille.reference;

import org.jspecify.annotations.Nullable;
import quadrille.facts.chart.Quadrant;
import quadrille.facts.chart.Tooth;
import quadrille.facts.practice.Agent;
import quadrille.facts.practice.Figure;
import quadrille.facts.practice.Injection;
import quadrille.facts.practice.Numbing;
import quadrille.plan.work.Target;

/**
 * An injection of the practice's table at a place, in its smallest volume. Front teeth across the
 * midline, larger volumes, a second agent and failing blocks are not written down a second time
 * yet: what is found here may be dearer, or longer in one visit, than what the rules allow.
 *
 * @param number by the table, then right before left, then from the midline
 * @param tooth where it is given tooth by tooth
 */
record Shot(int number, Injection kind, Quadrant quadrant, @Nullable Tooth tooth) {

  boolean numbs(Target target) {
    Tooth at = target.tooth();
    boolean here =
        tooth != null
            ? tooth.equals(at)
            : at.quadrant().jaw() == kind.jaw() && (kind.bothSides() || at.quadrant() == quadrant);
    // What counts with some drugs only does not count here.
    boolean counts =
        kind.notDependable().stream()
            .noneMatch(
                row ->
                    row.positions().contains(at.position())
                        && row.tissue()
                            == switch (target.kind()) {
                              case PULP, MESIOBUCCAL_ROOT -> Injection.Tissue.PULP;
                              case FACIAL -> Injection.Tissue.FACIAL;
                              case LINGUAL -> Injection.Tissue.LINGUAL;
                            });
    return here
        && counts
        && switch (target.kind()) {
          case PULP -> kind.pulp().contains(at.position());
          case FACIAL -> kind.facial().contains(at.position());
          case LINGUAL -> kind.lingual().contains(at.position());
          case MESIOBUCCAL_ROOT -> kind.mesiobuccalRoot() && at.position() == 6;
        };
  }

  double ml() {
    return kind.ml().value();
  }

  int seconds(Numbing numbing) {
    Figure own = kind.mlPerMinute();
    double rate = (own == null ? numbing.mlPerMinute() : own).value();
    return (int) Math.round(60 * ml() / rate) + numbing.handlingSeconds().asInt();
  }

  /** Seconds from the end of the injection until a target is numb. */
  int onset(Agent agent, Target.Kind target) {
    double minutes = agent.onsetMinutes().get(kind.technique()).value();
    Figure own = pulpal(target) ? kind.pulpOnsetMinutes() : kind.tissueOnsetMinutes();
    return (int) Math.round(60 * (own == null ? minutes : Math.max(minutes, own.value())));
  }

  /** Seconds from the end of the injection for which a target stays numb. */
  int lasts(Agent agent, Target.Kind target) {
    Figure minutes =
        pulpal(target) ? agent.pulpalMinutes().get(kind.technique()) : agent.softTissueMinutes();
    Figure most = kind.volumes().get(0).pulpalMinutes();
    double lasting =
        most == null || !pulpal(target) ? minutes.value() : Math.min(minutes.value(), most.value());
    return (int) Math.round(60 * lasting);
  }

  /** Seconds until all that it can numb is numb; the longest is given first. */
  int longestOnset(Agent agent) {
    boolean pulp = !kind.pulp().isEmpty() || kind.mesiobuccalRoot();
    boolean tissue = !kind.facial().isEmpty() || !kind.lingual().isEmpty();
    return Math.max(
        pulp ? onset(agent, Target.Kind.PULP) : 0, tissue ? onset(agent, Target.Kind.FACIAL) : 0);
  }

  private static boolean pulpal(Target.Kind kind) {
    return kind == Target.Kind.PULP || kind == Target.Kind.MESIOBUCCAL_ROOT;
  }
}
