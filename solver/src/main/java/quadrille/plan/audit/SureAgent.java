package quadrille.plan.audit;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.SortedSet;
import java.util.TreeSet;
import org.jspecify.annotations.Nullable;
import quadrille.facts.chart.Area;
import quadrille.facts.chart.Tooth;
import quadrille.facts.practice.Agent;
import quadrille.facts.practice.Figure;
import quadrille.facts.practice.Injection;
import quadrille.facts.practice.Minutes;
import quadrille.facts.practice.Numbing;
import quadrille.plan.course.GivenInjection;
import quadrille.plan.work.Step;
import quadrille.plan.work.Target;

/**
 * Whether an agent surely serves an area, so that it may not be held back for want of one. Reckoned
 * with room to spare: every injection that could numb anything of it is given, all before the first
 * step, in volumes that last as long as every target can be had for; each target is numb for as
 * long as the shortest-lasting of them says, and each step begins with every changeover. What no
 * agent serves surely may be held back; whether one would serve after all is not judged.
 */
final class SureAgent {

  private final Facts facts;
  private final List<Step> steps;
  private final SortedSet<Target> needs = new TreeSet<>();

  private SureAgent(Area area, List<Step> work, Facts facts) {
    this.facts = facts;
    this.steps = work.stream().filter(step -> step.area().equals(area)).toList();
    for (Step step : steps) {
      if (step.needsInjection()) {
        needs.addAll(facts.needs(step.pass(), step.aspect(), step.teeth()));
      }
    }
  }

  /** Whether one of the agents that the patient may have serves all of an area in one visit. */
  static boolean serves(Area area, List<Step> work, Facts facts) {
    SureAgent sure = new SureAgent(area, work, facts);
    return facts.allowed().stream().anyMatch(sure::serves);
  }

  private boolean serves(Agent agent) {
    Map<String, Shot> given = new LinkedHashMap<>();
    Map<Target, List<Injection>> kinds = new LinkedHashMap<>();
    double level = Double.POSITIVE_INFINITY;
    for (Target target : needs) {
      List<Injection> some = new ArrayList<>();
      for (Injection kind : facts.practice().injections().values()) {
        Shot shot = shot(kind, agent, target.tooth());
        if (kind.jaw() == target.tooth().quadrant().jaw() && shot.numbs(target)) {
          some.add(kind);
          given.put(kind.name() + (kind.perTooth() ? " " + target.tooth() : ""), shot);
        }
      }
      kinds.put(target, some);
      level = Math.min(level, some.stream().mapToDouble(SureAgent::most).max().orElse(0));
    }
    double reached = level;
    double shortest = Double.POSITIVE_INFINITY;
    for (Map.Entry<Target, List<Injection>> one : kinds.entrySet()) {
      for (Injection kind : one.getValue()) {
        if (most(kind) >= reached) {
          shortest = Math.min(shortest, lasts(kind, agent, one.getKey(), reached));
        }
      }
    }
    if (reached == 0) {
      return false;
    }
    double injecting = given.values().stream().mapToDouble(this::injecting).sum();
    double onset = given.values().stream().mapToDouble(shot -> onset(shot, agent)).max().orElse(0);
    double ml = given.values().stream().mapToDouble(shot -> shot.given().ml()).sum();
    DoseReading dose = new DoseReading(Map.of(agent, ml), 0, Map.of());
    return injecting + onset + working() <= shortest && DoseCheck.holds(facts, dose);
  }

  /** An injection in its largest volume. */
  private static Shot shot(Injection kind, Agent agent, Tooth tooth) {
    double ml = kind.volumes().get(kind.volumes().size() - 1).ml().value();
    return new Shot(
        new GivenInjection(
            kind.name(), tooth.quadrant(), kind.perTooth() ? tooth : null, agent.name(), ml),
        kind,
        agent,
        null);
  }

  /** How many minutes the volume of an injection that lasts longest lets pulp be numb at most. */
  private static double most(Injection kind) {
    return kind.volumes().stream().mapToDouble(SureAgent::most).max().orElse(0);
  }

  private static double most(Injection.Volume volume) {
    return minutes(volume.pulpalMinutes(), Double.POSITIVE_INFINITY);
  }

  /** Seconds, by the volume that lasts least of those that last so many minutes. */
  private static double lasts(Injection kind, Agent agent, Target target, double atLeast) {
    if (!target.kind().pulpal()) {
      return 60 * agent.softTissueMinutes().value();
    }
    double minutes = minutes(agent.pulpalMinutes().get(kind.technique()), 0);
    if (kind.lowerBlock()) {
      minutes = minutes(agent.lowerBlockPulpalMinutes(), minutes);
    }
    for (Injection.Volume volume : kind.volumes()) {
      minutes = most(volume) < atLeast ? minutes : Math.min(minutes, most(volume));
    }
    return 60 * minutes;
  }

  private static double onset(Shot shot, Agent agent) {
    Injection kind = shot.kind();
    if (kind == null) {
      return Double.POSITIVE_INFINITY;
    }
    double minutes = minutes(agent.onsetMinutes().get(kind.technique()), Double.POSITIVE_INFINITY);
    minutes = Math.max(minutes, minutes(kind.pulpOnsetMinutes(), 0));
    return 60 * Math.max(minutes, minutes(kind.tissueOnsetMinutes(), 0));
  }

  private double injecting(Shot shot) {
    Numbing numbing = facts.practice().numbing();
    Figure own = shot.kind() == null ? null : shot.kind().mlPerMinute();
    double rate = own == null ? numbing.mlPerMinute().value() : own.value();
    return 60 * shot.given().ml() / rate + numbing.handlingSeconds().value();
  }

  private double working() {
    Minutes minutes = facts.practice().minutes();
    double between =
        minutes.tipChangeSeconds().value()
            + minutes.repositionAreaSeconds().value()
            + minutes.repositionAspectSeconds().value()
            + facts.practice().gel().applySeconds().value()
            + facts.practice().gel().onsetSeconds().value();
    double look = 60 * minutes.lookMinutes().value();
    return look
        + steps.stream()
            .mapToDouble(
                step ->
                    between + step.seconds() + step.chartSecondsBefore() + step.chartSecondsAfter())
            .sum();
  }

  private static double minutes(@Nullable Figure figure, double otherwise) {
    return figure == null ? otherwise : figure.value();
  }
}
