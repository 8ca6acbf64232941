package quadrille.plan.audit;

import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.Set;
import java.util.SortedSet;
import java.util.TreeSet;
import java.util.function.Predicate;
import org.jspecify.annotations.Nullable;
import quadrille.facts.chart.Alert;
import quadrille.facts.chart.Aspect;
import quadrille.facts.chart.Chart;
import quadrille.facts.chart.Feature;
import quadrille.facts.chart.Jaw;
import quadrille.facts.chart.Patient;
import quadrille.facts.chart.Site;
import quadrille.facts.chart.Tooth;
import quadrille.facts.chart.ToothChart;
import quadrille.facts.practice.Agent;
import quadrille.facts.practice.AlertRule;
import quadrille.facts.practice.Figure;
import quadrille.facts.practice.Gel;
import quadrille.facts.practice.Numbing;
import quadrille.facts.practice.Pass;
import quadrille.facts.practice.Practice;
import quadrille.plan.work.Step;
import quadrille.plan.work.StepAspect;
import quadrille.plan.work.Target;

/** What chart and practice say, read without the planning of work: needs, gel, alerts. */
record Facts(Chart chart, Practice practice) {

  Say say() {
    return new Say(chart.numbering());
  }

  Patient patient() {
    return chart.patient();
  }

  /** The patient's alerts and those that they include, in a fixed order. */
  Set<Alert> alerts() {
    Set<Alert> alerts = new TreeSet<>(patient().history().alerts());
    boolean grown = true;
    while (grown) {
      List<Alert> more = new ArrayList<>();
      for (Alert alert : alerts) {
        practice.alertRule(alert).ifPresent(rule -> more.addAll(rule.includes()));
      }
      grown = alerts.addAll(more);
    }
    return alerts;
  }

  /** The rules of the patient's alerts and of those that they include, in the same order. */
  List<AlertRule> alertRules() {
    List<AlertRule> rules = new ArrayList<>();
    for (Alert alert : alerts()) {
      practice.alertRule(alert).ifPresent(rules::add);
    }
    return rules;
  }

  /** Whether the patient's alerts and age leave at least one agent that the practice gives. */
  boolean anyAgent() {
    return !allowed().isEmpty();
  }

  /** Those agents, in the practice's order. */
  List<Agent> allowed() {
    List<Agent> allowed = new ArrayList<>();
    for (String name : practice.preferredAgents()) {
      Agent agent = practice.agents().get(name);
      if (agent != null
          && oldEnough(agent.fromAgeYears())
          && alertRules().stream().noneMatch(forbids(agent))) {
        allowed.add(agent);
      }
    }
    return allowed;
  }

  /** Whether an age limit is kept; nobody of unknown age keeps one. */
  boolean oldEnough(@Nullable Figure fromAgeYears) {
    Integer age = patient().ageYears();
    return fromAgeYears == null || (age != null && age >= fromAgeYears.value());
  }

  private static Predicate<AlertRule> forbids(Agent agent) {
    return rule ->
        rule.forbids().contains(agent.drug())
            || rule.forbids().contains(agent.vasoconstrictor())
            || (agent.amide() && rule.forbidsAmides());
  }

  /** What must be numb by injection while teeth are worked on; empty where nothing need be. */
  SortedSet<Target> needs(Pass pass, StepAspect aspect, List<Tooth> teeth) {
    return needs(pass, aspect, teeth, false);
  }

  /**
   * The same.
   *
   * @param byGel whether gel numbs it, which shallow sensitive teeth have too
   */
  SortedSet<Target> needs(Pass pass, StepAspect aspect, List<Tooth> teeth, boolean byGel) {
    SortedSet<Target> needs = new TreeSet<>();
    for (Tooth tooth : teeth) {
      ToothChart charted = chart.tooth(tooth).filter(ToothChart::worked).orElse(null);
      if (charted != null) {
        addNeeds(charted, pass, aspect, byGel, needs);
      }
    }
    return Collections.unmodifiableSortedSet(needs);
  }

  private void addNeeds(
      ToothChart tooth, Pass pass, StepAspect swept, boolean byGel, SortedSet<Target> needs) {
    Numbing numbing = practice.numbing();
    boolean anyDeep = false;
    boolean anyAsked = false;
    for (Aspect aspect : aspects(swept)) {
      double deepest = deepest(tooth, aspect);
      boolean deep = deepest >= numbing.fineDepthMm().value();
      anyDeep |= deep;
      boolean shallow = deepest < numbing.sensitiveDepthMm().value();
      boolean asked =
          patient().wishesNumbness() || (tooth.has(Feature.SENSITIVE) && (byGel || !shallow));
      anyAsked |= asked;
      Target gingiva =
          new Target(
              tooth.tooth(), aspect == Aspect.FACIAL ? Target.Kind.FACIAL : Target.Kind.LINGUAL);
      switch (pass) {
        case FINE -> {
          if (deep || asked) {
            needs.add(gingiva);
            addPulp(tooth.tooth(), needs);
          }
        }
        case GROSS -> {
          boolean below =
              tooth.deposit().ordinal() >= numbing.grossFrom().ordinal()
                  && deepest >= numbing.grossDepthMm().value();
          if (asked || below && numbing.grossNeeds().contains(Numbing.Need.TISSUE)) {
            needs.add(gingiva);
          }
          if (asked || below && numbing.grossNeeds().contains(Numbing.Need.PULP)) {
            addPulp(tooth.tooth(), needs);
          }
        }
        case FINISHING -> {
          // Decided below, as a deep site on either aspect asks for both.
        }
        case IMPLANT_CARE -> {
          if (deep) {
            needs.add(gingiva);
          }
        }
      }
    }
    if (pass == Pass.FINISHING && (anyDeep || anyAsked)) {
      addPulp(tooth.tooth(), needs);
      needs.add(new Target(tooth.tooth(), Target.Kind.FACIAL));
      needs.add(new Target(tooth.tooth(), Target.Kind.LINGUAL));
    }
  }

  private void addPulp(Tooth tooth, SortedSet<Target> needs) {
    needs.add(new Target(tooth, Target.Kind.PULP));
    if (tooth.quadrant().jaw() == Jaw.UPPER && tooth.position() == 6) {
      needs.add(new Target(tooth, Target.Kind.MESIOBUCCAL_ROOT));
    }
    boolean incisor = tooth.position() == 1 || tooth.position() == 2;
    if (tooth.quadrant().jaw() == Jaw.LOWER
        && incisor
        && practice.numbing().lowerIncisorsBothSides()) {
      needs.add(new Target(tooth, Target.Kind.FACIAL));
      needs.add(new Target(tooth, Target.Kind.LINGUAL));
    }
  }

  /** Why pocket gel cannot numb these teeth, in a few words; null where it can. */
  @Nullable String gelFails(Pass pass, StepAspect aspect, List<Tooth> teeth, int seconds) {
    Gel gel = practice.gel();
    if (pass == Pass.IMPLANT_CARE) {
      return "it is not for implants";
    }
    if (seconds > 60 * gel.lastsMinutes().value()) {
      return "the step takes longer than the gel lasts";
    }
    for (Tooth tooth : teeth) {
      for (Aspect side : aspects(aspect)) {
        for (Site site : sites(tooth, side)) {
          Integer depth = site.depthMm();
          if (depth == null || depth > gel.deepestMm().value()) {
            return "a site of "
                + say().tooth(tooth)
                + (depth == null ? " was not probed" : " is " + depth + " mm deep");
          }
        }
      }
    }
    return null;
  }

  List<Site> sites(Tooth tooth, Aspect aspect) {
    return chart.tooth(tooth).map(charted -> charted.sites(aspect)).orElse(List.of());
  }

  /** Probing depth, mm; a site that was not probed has the practice's provisional depth. */
  double depth(Site site) {
    Integer depth = site.depthMm();
    return depth == null ? practice.minutes().provisionalDepthMm().value() : depth;
  }

  private double deepest(ToothChart tooth, Aspect aspect) {
    return tooth.sites(aspect).stream().mapToDouble(this::depth).max().orElse(0);
  }

  /** Whether more sites of natural teeth are unprobed than the practice plans with. */
  boolean chartFirst() {
    int sites = 0;
    int unprobed = 0;
    for (ToothChart tooth : chart.teeth()) {
      if (tooth.worked() && !tooth.implant()) {
        for (Aspect aspect : Aspect.values()) {
          sites += tooth.sites(aspect).size();
          unprobed += unprobed(tooth, aspect);
        }
      }
    }
    return unprobed > practice.passes().chartFirstShare().value() * sites;
  }

  private static int unprobed(ToothChart tooth, Aspect aspect) {
    int unprobed = 0;
    for (Site site : tooth.sites(aspect)) {
      unprobed += site.depthMm() == null ? 1 : 0;
    }
    return unprobed;
  }

  /** How many aspects of natural teeth have a site that was not probed. */
  int unprobedAspects(List<Tooth> teeth, StepAspect swept) {
    int aspects = 0;
    for (Tooth tooth : teeth) {
      ToothChart charted = chart.tooth(tooth).orElse(null);
      if (charted != null && !charted.implant()) {
        for (Aspect aspect : aspects(swept)) {
          aspects += unprobed(charted, aspect) > 0 ? 1 : 0;
        }
      }
    }
    return aspects;
  }

  /** Whole seconds to chart so many aspects of teeth. */
  int chartSeconds(int aspects) {
    return (int) Math.round(practice.minutes().chartToothSeconds().value() * aspects / 2);
  }

  /**
   * Whether a step waits for a new chart: where too much is unprobed, all on natural teeth but the
   * gross pass of areas with sites not probed.
   *
   * @param work all that is left to do
   */
  boolean waitsForChart(Step step, List<Step> work) {
    if (!chartFirst()) {
      return false;
    }
    boolean gross = false;
    boolean natural = false;
    for (Step other : work) {
      if (other.area().equals(step.area())) {
        gross |= other.pass() == Pass.GROSS;
        natural |= other.pass() != Pass.IMPLANT_CARE;
      }
    }
    return gross && unprobedAspects(step.area().teeth(), StepAspect.BOTH) > 0
        ? step.pass() == Pass.FINE || step.pass() == Pass.FINISHING
        : natural;
  }

  boolean implant(Tooth tooth) {
    return chart.tooth(tooth).filter(ToothChart::implant).isPresent();
  }

  static List<Aspect> aspects(StepAspect aspect) {
    return switch (aspect) {
      case FACIAL -> List.of(Aspect.FACIAL);
      case LINGUAL -> List.of(Aspect.LINGUAL);
      case BOTH -> List.of(Aspect.values());
    };
  }
}
