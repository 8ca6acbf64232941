package quadrille.plan.audit;

import java.util.ArrayList;
import java.util.EnumMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import org.jspecify.annotations.Nullable;
import quadrille.facts.chart.Quadrant;
import quadrille.facts.practice.Agent;
import quadrille.facts.practice.Practice;
import quadrille.plan.course.Dose;

/**
 * What a visit gives, from its listed injections and its gel.
 *
 * @param ml by agent, in the order first given; agents that the practice has
 * @param gelCartridges used
 * @param gelByQuadrant used
 */
record DoseReading(
    Map<Agent, Double> ml, double gelCartridges, Map<Quadrant, Double> gelByQuadrant) {

  static DoseReading of(VisitParts visit, Practice practice) {
    Map<Agent, Double> ml = new LinkedHashMap<>();
    for (Shot shot : visit.shots()) {
      Agent agent = shot.agent();
      if (agent != null) {
        ml.merge(agent, shot.given().ml(), Double::sum);
      }
    }
    Map<Quadrant, Double> byQuadrant = new EnumMap<>(Quadrant.class);
    for (GelUse use : visit.gels()) {
      Done step = use.step();
      if (step != null) {
        byQuadrant.merge(
            step.entry().teeth().get(0).quadrant(),
            VisitParts.cartridges(step.entry().aspect(), practice),
            Double::sum);
      }
    }
    return new DoseReading(ml, visit.gelCartridges(practice), byQuadrant);
  }

  boolean nothing() {
    return ml.isEmpty() && gelCartridges == 0;
  }

  /** Two visits of one day together. */
  DoseReading plus(DoseReading other) {
    Map<Agent, Double> sum = new LinkedHashMap<>(ml);
    other.ml.forEach((agent, more) -> sum.merge(agent, more, Double::sum));
    Map<Quadrant, Double> gel = new EnumMap<>(Quadrant.class);
    gel.putAll(gelByQuadrant);
    other.gelByQuadrant.forEach((quadrant, more) -> gel.merge(quadrant, more, Double::sum));
    return new DoseReading(sum, gelCartridges + other.gelCartridges, gel);
  }

  /** With one more injection. */
  DoseReading plus(Agent agent, double more) {
    return plus(new DoseReading(Map.of(agent, more), 0, Map.of()));
  }

  double epinephrineMg() {
    double sum = 0;
    for (Map.Entry<Agent, Double> one : ml.entrySet()) {
      sum += one.getValue() * one.getKey().epinephrineMgPerMl().value();
    }
    return sum;
  }

  int cartridges() {
    int sum = 0;
    for (Map.Entry<Agent, Double> one : ml.entrySet()) {
      sum += (int) Math.ceil(one.getValue() / one.getKey().cartridgeMl().value() - 1e-9);
    }
    return sum;
  }

  /**
   * Agents first, then gel.
   *
   * @param weightKg not known where null: then no agent has a maximum and none is listed
   */
  List<Dose> doses(Practice practice, @Nullable Double weightKg) {
    List<Dose> doses = new ArrayList<>();
    if (weightKg != null) {
      for (Map.Entry<Agent, Double> one : ml.entrySet()) {
        Agent agent = one.getKey();
        double mg = one.getValue() * agent.mgPerMl().value();
        double most = maxMg(agent, practice, weightKg);
        doses.add(new Dose(agent.name(), mg, most, mg / most));
      }
    }
    if (gelCartridges > 0) {
      double most = practice.gel().cartridgesVisit().value();
      doses.add(new Dose(practice.gel().name(), gelCartridges, most, gelCartridges / most));
    }
    return doses;
  }

  private static double maxMg(Agent agent, Practice practice, double weightKg) {
    Agent.@Nullable Limit limit = agent.limits().get(practice.ruleSet());
    double most = Double.POSITIVE_INFINITY;
    if (limit != null && limit.mgPerKg() != null) {
      most = limit.mgPerKg().value() * weightKg;
    }
    if (limit != null && limit.capMg() != null) {
      most = Math.min(most, limit.capMg().value());
    }
    // An agent without a maximum under the rule set may not be given at all.
    return most == Double.POSITIVE_INFINITY ? 0 : most;
  }
}
