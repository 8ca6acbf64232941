package quadrille.plan.audit;

import java.util.List;
import org.jspecify.annotations.Nullable;
import quadrille.facts.chart.Tooth;
import quadrille.facts.practice.Agent;
import quadrille.facts.practice.Appointments;
import quadrille.facts.practice.Figure;
import quadrille.facts.practice.Injection;
import quadrille.plan.course.Entry;
import quadrille.plan.course.GivenInjection;
import quadrille.plan.work.Target;

/**
 * An injection that a visit lists.
 *
 * @param kind the practice's; null where it has none of the name, or not at such a place
 * @param agent the practice's; null where it has none of the name
 * @param entry when it is given; null where the clock does not say
 */
record Shot(
    GivenInjection given,
    @Nullable Injection kind,
    @Nullable Agent agent,
    Entry.@Nullable Inject entry) {

  /** Whether kind, agent and time are known, so that its numbness can be judged. */
  boolean known() {
    return kind != null && agent != null && entry != null;
  }

  boolean numbs(Target target) {
    Injection injection = kind;
    if (injection == null) {
      return false;
    }
    Tooth at = target.tooth();
    Tooth given = given().tooth();
    boolean here =
        given != null
            ? at.equals(given)
            : at.quadrant() == given().quadrant()
                || injection.bothSides() && at.quadrant().jaw() == injection.jaw();
    if (!here) {
      return false;
    }
    List<Integer> positions =
        switch (target.kind()) {
          case PULP -> injection.pulp();
          case FACIAL -> injection.facial();
          case LINGUAL -> injection.lingual();
          case MESIOBUCCAL_ROOT -> injection.mesiobuccalRoot() ? List.of(6) : List.of();
        };
    return positions.contains(at.position()) && counts(injection, target);
  }

  /** Whether the practice counts on it, with the agent that is given. */
  private boolean counts(Injection injection, Target target) {
    String tissue =
        target.kind().pulpal()
            ? "pulp"
            : target.kind() == Target.Kind.FACIAL ? "facial" : "lingual";
    Agent drug = agent;
    for (Injection.NotDependable row : injection.notDependable()) {
      boolean spoken =
          row.tissue().word().equals(tissue) && row.positions().contains(target.tooth().position());
      if (spoken && (row.drugs().isEmpty() || drug != null && row.drugs().contains(drug.drug()))) {
        return false;
      }
    }
    return true;
  }

  /** Whether it may stand beside a numb other side: it numbs both, or front teeth across. */
  boolean bindsNoSide(Appointments appointments) {
    Injection injection = kind;
    return injection != null && (injection.bothSides() || isAcross(appointments));
  }

  /** Whether it infiltrates a front tooth as it may be across the midline. */
  boolean isAcross(Appointments appointments) {
    Tooth tooth = given.tooth();
    return appointments.midlineInfiltration()
        && kind != null
        && tooth != null
        && kind.acrossMidline().contains(tooth.position());
  }

  /** The second from which a target is numb; never, where nothing is known. */
  double readySecond(Target target) {
    Injection injection = kind;
    Agent drug = agent;
    Entry.Inject when = entry;
    if (injection == null || drug == null || when == null) {
      return Double.POSITIVE_INFINITY;
    }
    @Nullable Figure onset = drug.onsetMinutes().get(injection.technique());
    if (onset == null) {
      return Double.POSITIVE_INFINITY;
    }
    @Nullable Figure own =
        target.kind().pulpal() ? injection.pulpOnsetMinutes() : injection.tissueOnsetMinutes();
    double minutes = own == null ? onset.value() : Math.max(onset.value(), own.value());
    return when.endSecond() + 60 * minutes;
  }

  /** The second until which a target is numb. */
  double expirySecond(Target target) {
    Injection injection = kind;
    Agent drug = agent;
    Entry.Inject when = entry;
    if (injection == null || drug == null || when == null) {
      return Double.NEGATIVE_INFINITY;
    }
    @Nullable Figure lasts =
        target.kind().pulpal()
            ? drug.pulpalMinutes().get(injection.technique())
            : drug.softTissueMinutes();
    @Nullable Figure lower = drug.lowerBlockPulpalMinutes();
    if (lower != null && injection.lowerBlock() && target.kind().pulpal()) {
      lasts = lower;
    }
    if (lasts == null) {
      return Double.NEGATIVE_INFINITY;
    }
    double minutes = lasts.value();
    if (target.kind().pulpal()) {
      for (Injection.Volume volume : injection.volumes()) {
        Figure most = volume.pulpalMinutes();
        if (most != null && Math.abs(volume.ml().value() - given.ml()) < 1e-4) {
          minutes = Math.min(minutes, most.value());
        }
      }
    }
    return when.endSecond() + 60 * minutes;
  }
}
