package quadrille.plan.anaesthesia;

import java.util.ArrayList;
import java.util.Collections;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.SortedMap;
import quadrille.facts.chart.Patient;
import quadrille.facts.chart.Quadrant;
import quadrille.facts.practice.Agent;
import quadrille.facts.practice.Gel;
import quadrille.facts.practice.PatientRules;
import quadrille.facts.practice.Practice;
import quadrille.facts.practice.RuleSet;

/**
 * Doses against maximum doses for one patient, under the practice's rule set. Toxicity is taken as
 * additive (from memory): the shares of all agents and of pocket gel add up, to at most 1. For a
 * patient of unknown weight everything is refused; no weight is ever assumed.
 */
public final class Doses {

  /** Slack for sums of decimal fractions; far below what a syringe can measure. */
  private static final double SLACK = 1e-9;

  private final Practice practice;
  private final Patient patient;
  private final PatientRules rules;

  public Doses(Practice practice, Patient patient) {
    this.practice = practice;
    this.patient = patient;
    this.rules = PatientRules.of(practice, patient);
  }

  /**
   * A volume of one agent.
   *
   * @param ml 0 or more
   */
  public record Amount(Agent agent, double ml) {

    public Amount {
      if (!(ml >= 0 && ml < Double.POSITIVE_INFINITY)) {
        throw new IllegalArgumentException("The volume (" + ml + " mL) must be 0 or more.");
      }
    }

    /** mg of the drug. */
    public double mg() {
      return ml * agent.mgPerMl().value();
    }

    /** mg of epinephrine. */
    public double epinephrineMg() {
      return ml * agent.epinephrineMgPerMl().value();
    }

    /** Whole cartridges that must be opened for it. */
    public int cartridges() {
      return (int) Math.ceil(ml / agent.cartridgeMl().value() - SLACK);
    }
  }

  /**
   * What one agent, or the gel, comes to.
   *
   * @param name the agent's name, or the gel's
   * @param given mg; for gel, cartridges
   * @param most mg at most; for gel, cartridges
   * @param share given / most
   */
  public record Share(String name, double given, double most, double share) {}

  /**
   * What a day's amounts come to.
   *
   * @param shares one an agent, in the order first met, earlier amounts counted in; then the gel
   * @param share sum of the shares; infinite where a maximum is not known
   * @param epinephrineMg earlier amounts counted in
   * @param epinephrineCapMg the lower of the practice's cap and the patient's alerts'
   * @param cartridges opened for the visit's own amounts, gel not counted
   * @param refusals why it may not be given; empty where it may, as far as doses go
   */
  public record Check(
      List<Share> shares,
      double share,
      double epinephrineMg,
      double epinephrineCapMg,
      int cartridges,
      List<Refusal> refusals) {

    public Check {
      shares = List.copyOf(shares);
      refusals = List.copyOf(refusals);
    }

    /** Whether no limit and no alert speaks against it. It never clears a patient. */
    public boolean allowed() {
      return refusals.isEmpty();
    }
  }

  /**
   * The most mg of an agent that a patient of this weight may have, under a rule set.
   *
   * @throws IllegalArgumentException if the agent has no maximum in the rule set, or the weight is
   *     not above 0
   */
  public static double maxMg(Agent agent, RuleSet ruleSet, double weightKg) {
    if (!(weightKg > 0)) {
      throw new IllegalArgumentException("The weight (" + weightKg + " kg) must be above 0.");
    }
    Agent.Limit limit = agent.limits().get(ruleSet);
    double most = limit == null ? Double.POSITIVE_INFINITY : limit.maxMg(weightKg);
    if (!(most < Double.POSITIVE_INFINITY)) {
      throw new IllegalArgumentException(
          "The agent ("
              + agent.name()
              + ") must have a maximum dose in the rule set "
              + ruleSet.word()
              + ".");
    }
    return most;
  }

  /**
   * The most mg of an agent that the patient may have.
   *
   * @throws IllegalStateException if the patient's weight is not known
   */
  public double maxMg(Agent agent) {
    Double weight = patient.weightKg();
    if (weight == null) {
      throw new IllegalStateException(
          "No maximum dose of " + agent.name() + ": the patient's weight is not known.");
    }
    return maxMg(agent, practice.ruleSet(), weight);
  }

  /**
   * Whole cartridges of an agent that the drug's own maximum allows.
   *
   * @throws IllegalStateException if the patient's weight is not known
   */
  public int cartridgesByDrug(Agent agent) {
    double mgPerCartridge = agent.mgPerMl().value() * agent.cartridgeMl().value();
    return (int) Math.floor(maxMg(agent) / mgPerCartridge + SLACK);
  }

  /**
   * Whole cartridges of an agent that the epinephrine cap allows; {@code Integer.MAX_VALUE} for an
   * agent without epinephrine.
   */
  public int cartridgesByEpinephrine(Agent agent) {
    double perCartridge = agent.epinephrineMgPerMl().value() * agent.cartridgeMl().value();
    if (perCartridge == 0) {
      return Integer.MAX_VALUE;
    }
    return (int) Math.floor(rules.epinephrineCapMg() / perCartridge + SLACK);
  }

  /**
   * Whole cartridges of an agent that drug and epinephrine allow.
   *
   * @throws IllegalStateException if the patient's weight is not known
   */
  public int cartridges(Agent agent) {
    return Math.min(cartridgesByDrug(agent), cartridgesByEpinephrine(agent));
  }

  /** Checks the amounts of a visit without gel, nothing having been given that day before. */
  public Check check(List<Amount> amounts) {
    return check(amounts, Collections.emptySortedMap(), List.of());
  }

  /**
   * Checks the amounts of a visit.
   *
   * @param amounts injected; an agent may stand more than once
   * @param gelCartridges pocket gel by quadrant
   * @param earlier injected earlier on the same day
   */
  public Check check(
      List<Amount> amounts, SortedMap<Quadrant, Double> gelCartridges, List<Amount> earlier) {
    List<Refusal> refusals = new ArrayList<>();
    List<Share> shares = new ArrayList<>();
    Map<String, Amount> sums = new LinkedHashMap<>();
    amounts.forEach(amount -> add(sums, amount));
    Map<String, Amount> own = new LinkedHashMap<>(sums);
    earlier.forEach(amount -> add(sums, amount));

    double epinephrine = 0;
    for (Amount amount : sums.values()) {
      epinephrine += amount.epinephrineMg();
      rules.objections(amount.agent()).forEach(one -> refusals.add(new Refusal.ForPatient(one)));
      shares.add(share(amount));
    }
    double gel = sum(gelCartridges);
    if (gel > 0) {
      rules.gelObjections().forEach(one -> refusals.add(new Refusal.ForPatient(one)));
      shares.add(gelShare(gel));
      checkGelByQuadrant(gelCartridges, refusals);
    }

    double share = shares.stream().mapToDouble(Share::share).sum();
    double cap = rules.epinephrineCapMg();
    checkShares(shares, share, refusals);
    if (epinephrine > cap + SLACK) {
      refusals.add(new Refusal.TooMuchEpinephrine(epinephrine, cap));
    }
    int cartridges = own.values().stream().mapToInt(Amount::cartridges).sum();
    return new Check(
        shares, share, epinephrine, cap, cartridges, refusals.stream().distinct().toList());
  }

  private static void add(Map<String, Amount> sums, Amount amount) {
    sums.merge(
        amount.agent().name(),
        amount,
        (one, other) -> new Amount(one.agent(), one.ml() + other.ml()));
  }

  private Share share(Amount amount) {
    String name = amount.agent().name();
    if (patient.weightKg() == null) {
      return new Share(name, amount.mg(), 0, Double.POSITIVE_INFINITY);
    }
    double most = maxMg(amount.agent());
    return new Share(name, amount.mg(), most, amount.mg() / most);
  }

  private Share gelShare(double cartridges) {
    Gel gel = practice.gel();
    double most = gel.cartridgesVisit().value();
    return new Share(gel.name(), cartridges, most, cartridges / most);
  }

  private static void checkShares(List<Share> shares, double share, List<Refusal> refusals) {
    for (Share one : shares) {
      if (one.share() > 1 + SLACK && one.share() < Double.POSITIVE_INFINITY) {
        refusals.add(new Refusal.TooMuch(one));
      }
    }
    if (shares.size() > 1 && share > 1 + SLACK && share < Double.POSITIVE_INFINITY) {
      refusals.add(new Refusal.TooMuchTogether(share));
    }
  }

  private void checkGelByQuadrant(
      SortedMap<Quadrant, Double> gelCartridges, List<Refusal> refusals) {
    double most = practice.gel().cartridgesQuadrant().value();
    gelCartridges.forEach(
        (quadrant, cartridges) -> {
          if (cartridges > most + SLACK) {
            refusals.add(new Refusal.TooMuchGel(practice.gel().name(), quadrant, cartridges, most));
          }
        });
  }

  private static double sum(SortedMap<Quadrant, Double> gelCartridges) {
    double sum = 0;
    for (Map.Entry<Quadrant, Double> entry : gelCartridges.entrySet()) {
      if (!(entry.getValue() >= 0)) {
        throw new IllegalArgumentException(
            "The gel (" + entry.getValue() + " cartridges) must be 0 or more.");
      }
      sum += entry.getValue();
    }
    return sum;
  }
}
