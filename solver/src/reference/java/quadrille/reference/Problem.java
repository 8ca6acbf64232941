package quadrille.reference;

import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.function.Function;
import java.util.stream.Stream;
import org.jspecify.annotations.Nullable;
import quadrille.facts.chart.AreaRef;
import quadrille.facts.chart.Patient;
import quadrille.facts.practice.Agent;
import quadrille.facts.practice.AlertRule;
import quadrille.facts.practice.Figure;
import quadrille.facts.practice.Frame;
import quadrille.facts.practice.Practice;
import quadrille.plan.work.Step;

/**
 * What is to be staged.
 *
 * @param steps their places in this list are what courses name
 * @param burdens by area; an area that is not there counts 0
 * @param visits exactly so many, none of them empty
 */
public record Problem(
    Patient patient,
    Practice practice,
    List<Step> steps,
    Map<AreaRef, Double> burdens,
    int visits) {

  private Stream<AlertRule> rules() {
    return patient.history().alerts().stream()
        .flatMap(alert -> practice.alertRule(alert).stream())
        .flatMap(
            rule ->
                Stream.concat(
                    Stream.of(rule),
                    rule.includes().stream().flatMap(one -> practice.alertRule(one).stream())))
        .distinct();
  }

  private Stream<Double> figures(Function<AlertRule, @Nullable Figure> of) {
    return rules().map(of).filter(Objects::nonNull).map(figure -> figure.value());
  }

  double burden(AreaRef area) {
    return burdens.getOrDefault(area, 0.0);
  }

  /**
   * The agents that no alert forbids and no age, best first; none where history or weight are not
   * known.
   */
  List<Agent> agents() {
    return practice.preferredAgents().stream()
        .map(name -> Objects.requireNonNull(practice.agents().get(name)))
        .filter(agent -> patient.history().taken() && patient.weightKg() != null)
        .filter(
            agent ->
                agent.fromAgeYears() == null
                    || (patient.ageYears() != null
                        && patient.ageYears() >= agent.fromAgeYears().value()))
        .filter(
            agent ->
                rules()
                    .noneMatch(
                        rule ->
                            rule.forbids().contains(agent.drug())
                                || rule.forbids().contains(agent.vasoconstrictor())
                                || (rule.forbidsAmides() && agent.amide())))
        .toList();
  }

  /** Cost of one injection. */
  double injectionWeight() {
    return practice.weights().injection().value()
        * figures(AlertRule::injectionWeightFactor).reduce(Math::max).orElse(1.0);
  }

  /** What a block costs more before the look at the bleeding. */
  double blockBeforeLookPrice() {
    return figures(AlertRule::blockBeforeLookSeconds).reduce(0.0, Math::max);
  }

  /** What a block costs more than an infiltration. */
  double blockPrice() {
    return figures(AlertRule::blockPriceSeconds).reduce(0.0, Math::max);
  }

  /** What all visits cost beside their time. */
  double visitPrices() {
    return visits * figures(AlertRule::visitPriceSeconds).reduce(0.0, Math::max);
  }

  /**
   * Set-up, close and all else that the practice does around the work of a visit, in seconds.
   *
   * @param visit 0, 1, 2 …
   */
  int around(int visit) {
    double minutes =
        practice.minutes().setUpMinutes().value() + practice.minutes().closeMinutes().value();
    for (Frame.Part part : practice.frame().parts().values()) {
      boolean due =
          switch (part.visits()) {
                case EVERY -> true;
                case FIRST -> visit == 0;
                case LAST -> visit == visits - 1;
                case NONE -> false;
              }
              || rules().anyMatch(rule -> part.alerts().contains(rule.alert()));
      boolean forbidden =
          part.agent() != null
              && rules().anyMatch(rule -> rule.forbidsRinses().contains(part.agent()));
      minutes += due && !forbidden ? part.minutes().value() : 0;
    }
    return (int) Math.round(60 * minutes);
  }

  /** Whether nothing in a quadrant is touched before all that is numbed in it is numb. */
  boolean numbFirst() {
    return practice.numbing().numbFirst() || rules().anyMatch(AlertRule::numbFirst);
  }

  /** How many teeth a visit may work on before the first look at the bleeding. */
  int teethBeforeLook() {
    return figures(AlertRule::teethBeforeLook).mapToInt(Double::intValue).min().orElse(32);
  }

  double epinephrineCapMg() {
    return figures(AlertRule::epinephrineCapMg)
        .reduce(practice.epinephrineCapMg().value(), Math::min);
  }

  /** The longest length that can be booked, in seconds: whole units of the diary. */
  int longestSeconds() {
    double minutes =
        figures(AlertRule::longestVisitMinutes)
            .reduce(practice.appointments().longestVisitMinutes().value(), Math::min);
    if (patient.longestVisitMinutes() != null) {
      minutes = Math.min(minutes, patient.longestVisitMinutes());
    }
    double unit = practice.appointments().unitMinutes().value();
    return (int) Math.round(60 * unit * Math.floor(minutes / unit));
  }

  /** The most of an agent in mg; by weight or by cap, whichever is lower. */
  double mostMg(Agent agent) {
    Agent.Limit limit = Objects.requireNonNull(agent.limits().get(practice.ruleSet()));
    double most = Double.POSITIVE_INFINITY;
    if (limit.mgPerKg() != null) {
      most = limit.mgPerKg().value() * Objects.requireNonNull(patient.weightKg());
    }
    return limit.capMg() == null ? most : Math.min(most, limit.capMg().value());
  }
}
