package quadrille.plan.audit;

import java.util.ArrayList;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Set;
import java.util.TreeSet;
import org.jspecify.annotations.Nullable;
import quadrille.facts.chart.Quadrant;
import quadrille.facts.chart.Tooth;
import quadrille.facts.practice.Injection;
import quadrille.facts.practice.Practice;
import quadrille.plan.course.Entry;
import quadrille.plan.course.GivenInjection;
import quadrille.plan.course.Visit;
import quadrille.plan.work.StepAspect;
import quadrille.plan.work.Target;

/**
 * A visit taken apart.
 *
 * @param place in the course, 1, 2, 3 …
 * @param done its steps, in order
 * @param shots its injections, as listed
 * @param gels the gel of its sequence
 */
record VisitParts(int place, Visit visit, List<Done> done, List<Shot> shots, List<GelUse> gels) {

  /** Takes a visit apart; reports injections that list and clock do not agree on. */
  static VisitParts of(
      int place, Visit visit, List<Done> done, Practice practice, Findings findings) {
    List<Entry> free = new ArrayList<>();
    for (Entry entry : visit.sequence()) {
      if (entry.kind() == Entry.Kind.INJECT) {
        free.add(entry);
      }
    }
    List<Shot> shots = new ArrayList<>();
    List<GivenInjection> untimed = new ArrayList<>();
    for (GivenInjection given : visit.injections()) {
      Entry.@Nullable Inject entry = null;
      for (Entry one : free) {
        if (one instanceof Entry.Inject inject && inject.injection().equals(given.ref())) {
          entry = inject;
          break;
        }
      }
      if (entry == null) {
        untimed.add(given);
      } else {
        free.remove(entry);
      }
      shots.add(
          new Shot(given, kind(given, practice), practice.agents().get(given.agent()), entry));
    }
    for (Entry entry : free) {
      String words = words(entry, findings.say());
      if (!untimed.isEmpty()) {
        findings.visit(
            Rule.CLOCK,
            place,
            "The visit lists the injection "
                + findings.say().injection(untimed.remove(0).ref())
                + ", but the clock gives "
                + words
                + ".");
      } else {
        findings.visit(
            Rule.REPORT, place, "The clock gives " + words + ", which the visit does not list.");
      }
    }
    for (GivenInjection given : untimed) {
      findings.visit(
          Rule.CLOCK,
          place,
          "The clock never gives the injection " + findings.say().injection(given.ref()) + ".");
    }
    List<GelUse> gels = new ArrayList<>();
    for (Entry.ApplyGel entry : visit.gelEntries()) {
      if (!entry.gel().equals(practice.gel().name())) {
        findings.visit(Rule.WORK, place, "The practice has no gel " + entry.gel() + ".");
      }
      gels.add(new GelUse(entry, next(entry, visit, done)));
    }
    return new VisitParts(place, visit, done, shots, gels);
  }

  static @Nullable Injection kind(GivenInjection given, Practice practice) {
    Injection kind = practice.injections().get(given.injection());
    if (kind == null
        || kind.jaw() != given.quadrant().jaw()
        || kind.perTooth() != (given.tooth() != null)) {
      return null;
    }
    Tooth tooth = given.tooth();
    boolean there =
        tooth == null
            || tooth.quadrant() == given.quadrant()
                && (kind.pulp().contains(tooth.position())
                    || kind.facial().contains(tooth.position())
                    || kind.lingual().contains(tooth.position()));
    return there ? kind : null;
  }

  private static String words(Entry entry, Say say) {
    return entry instanceof Entry.Inject inject
        ? say.injection(inject.injection())
        : entry instanceof Entry.AsWritten written ? written.text() : entry.kind().word();
  }

  /** The next step after a gel, if the gel is put into its area and aspect. */
  private static @Nullable Done next(Entry.ApplyGel gel, Visit visit, List<Done> done) {
    int at = visit.sequence().indexOf(gel);
    for (Done step : done) {
      if (step.index() > at) {
        Entry.Debride entry = step.entry();
        return gel.area().equals(entry.area()) && gel.aspect() == entry.aspect() ? step : null;
      }
    }
    return null;
  }

  /** The gel put in for a step, the last one where there are several; null where there is none. */
  @Nullable GelUse gel(Done step) {
    GelUse found = null;
    for (GelUse use : gels) {
      if (step.equals(use.step())) {
        found = use;
      }
    }
    return found;
  }

  /** What the visit's steps need numb by injection. */
  Set<Target> injectionNeeds() {
    Set<Target> needs = new TreeSet<>();
    for (Done step : done) {
      if (gel(step) == null) {
        needs.addAll(step.needs());
      }
    }
    return needs;
  }

  /** What the steps of one quadrant need numb by injection. */
  Set<Target> needsIn(Quadrant quadrant) {
    Set<Target> needs = new TreeSet<>();
    for (Done step : done) {
      if (gel(step) == null && step.entry().area().quadrant() == quadrant) {
        needs.addAll(step.needs());
      }
    }
    return needs;
  }

  /** Whether a listed injection of this quadrant cannot be judged, which has its own finding. */
  boolean doubtful(Quadrant quadrant) {
    return shots.stream().anyMatch(shot -> !shot.known() && shot.given().quadrant() == quadrant);
  }

  /** Gel cartridges used for a step. */
  static double cartridges(StepAspect aspect, Practice practice) {
    return Facts.aspects(aspect).size() * practice.gel().cartridgesAspect().value();
  }

  double gelCartridges(Practice practice) {
    double sum = 0;
    for (GelUse use : gels) {
      Done step = use.step();
      sum += cartridges(step == null ? StepAspect.FACIAL : step.entry().aspect(), practice);
    }
    return sum;
  }

  /** Inserts in the order first used. */
  Set<String> inserts() {
    Set<String> names = new LinkedHashSet<>();
    done.forEach(step -> names.add(step.entry().insert()));
    return names;
  }

  int workingSeconds() {
    return done.stream().mapToInt(step -> step.entry().seconds()).sum();
  }
}
