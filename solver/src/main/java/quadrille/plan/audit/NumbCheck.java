package quadrille.plan.audit;

import java.util.ArrayList;
import java.util.EnumMap;
import java.util.EnumSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeMap;
import java.util.TreeSet;
import org.jspecify.annotations.Nullable;
import quadrille.facts.chart.Side;
import quadrille.facts.chart.Tooth;
import quadrille.facts.practice.Appointments;
import quadrille.facts.practice.Gel;
import quadrille.facts.practice.Injection;
import quadrille.facts.practice.Practice;
import quadrille.plan.course.Before;
import quadrille.plan.course.Entry;
import quadrille.plan.course.GivenInjection;
import quadrille.plan.course.NumbSide;
import quadrille.plan.work.Step;
import quadrille.plan.work.Target;

/** H1, H2 and H8: which side is numb, what is numb, and when; and injections that numb nothing. */
final class NumbCheck {

  private final VisitParts visit;
  private final Facts facts;
  private final boolean clockHolds;
  private final Findings findings;

  private NumbCheck(VisitParts visit, Facts facts, boolean clockHolds, Findings findings) {
    this.visit = visit;
    this.facts = facts;
    this.clockHolds = clockHolds;
    this.findings = findings;
  }

  /**
   * Checks one visit.
   *
   * @param clockHolds whether the visit's clock is sound; when something is numb is judged only
   *     then, since a broken clock is a finding of its own
   * @param missing steps of the work that the course lacks; injections given for them are not
   *     reported once more
   */
  static void check(
      VisitParts visit, Facts facts, boolean clockHolds, List<Step> missing, Findings findings) {
    NumbCheck check = new NumbCheck(visit, facts, clockHolds, findings);
    check.checkSides();
    Set<String> doubled = check.checkDoubleBlock();
    check.checkUnknown();
    check.checkNeedless(doubled, missing);
    check.checkGelPlaces();
    visit.done().forEach(check::checkNumb);
  }

  /**
   * The sides that the visit numbs for its work. What the nasopalatine numbs, on either side of the
   * midline, counts as no side, nor does what a front tooth's infiltration numbs that may be given
   * across it; what nothing numbs is H8's to report.
   */
  static Set<Side> sides(VisitParts visit, Practice practice) {
    Set<Side> sides = EnumSet.noneOf(Side.class);
    for (Target target : visit.injectionNeeds()) {
      if (countsAsSide(visit, target, practice.appointments())) {
        sides.add(target.tooth().quadrant().side());
      }
    }
    return sides;
  }

  private static boolean countsAsSide(VisitParts visit, Target target, Appointments appointments) {
    List<Shot> shots = visit.shots().stream().filter(shot -> shot.numbs(target)).toList();
    return !shots.isEmpty() && shots.stream().noneMatch(shot -> shot.bindsNoSide(appointments));
  }

  /** The side on which the visit injects, front teeth across the midline left out. */
  static NumbSide numbSide(VisitParts visit, Practice practice) {
    Appointments appointments = practice.appointments();
    Set<Side> bound = EnumSet.noneOf(Side.class);
    Set<Side> front = EnumSet.noneOf(Side.class);
    for (Shot shot : visit.shots()) {
      Side side = shot.given().quadrant().side();
      if (shot.isAcross(appointments)) {
        front.add(side);
      } else if (shot.kind() != null && !shot.bindsNoSide(appointments)) {
        bound.add(side);
      }
    }
    if (bound.size() > 1) {
      return NumbSide.BOTH;
    }
    Set<Side> one = bound.isEmpty() ? front : bound;
    return NumbSide.of(one.size() == 1 ? one.iterator().next() : null);
  }

  /** The front teeth that are infiltrated across the midline. */
  static List<Tooth> front(VisitParts visit, Practice practice) {
    NumbSide side = numbSide(visit, practice);
    Set<Tooth> front = new TreeSet<>();
    for (Shot shot : visit.shots()) {
      Tooth tooth = shot.given().tooth();
      if (tooth != null
          && side != NumbSide.BOTH
          && NumbSide.of(shot.given().quadrant().side()) != side) {
        front.add(tooth);
      }
    }
    return List.copyOf(front);
  }

  private boolean oneSide() {
    return facts.practice().appointments().oneNumbSide();
  }

  /** H1 over the day: what was injected earlier on it binds the first visit, too. */
  static void checkDay(VisitParts first, Before before, Facts facts, Findings findings) {
    Practice practice = facts.practice();
    Appointments appointments = practice.appointments();
    if (!appointments.oneNumbSide()) {
      return;
    }
    Set<Side> earlier = EnumSet.noneOf(Side.class);
    for (GivenInjection given : before.given()) {
      if (!new Shot(given, VisitParts.kind(given, practice), null, null)
          .bindsNoSide(appointments)) {
        earlier.add(given.quadrant().side());
      }
    }
    for (Shot shot : first.shots()) {
      Side side = shot.given().quadrant().side();
      if (shot.kind() != null
          && !shot.bindsNoSide(appointments)
          && !earlier.isEmpty()
          && !earlier.equals(EnumSet.of(side))) {
        findings.visit(
            Rule.H1,
            first.place(),
            "The injection "
                + findings.say().injection(shot.given().ref())
                + " numbs the "
                + side.word()
                + "; earlier that day something was numbed on the other side.");
        return;
      }
    }
  }

  private void checkSides() {
    if (!oneSide()) {
      return;
    }
    if (sides(visit, facts.practice()).size() < 2) {
      checkSidesOfInjections();
      return;
    }
    Map<Side, String> steps = new EnumMap<>(Side.class);
    for (Done done : visit.done()) {
      for (Target target : done.needs()) {
        if (visit.gel(done) == null
            && countsAsSide(visit, target, facts.practice().appointments())) {
          steps.putIfAbsent(target.tooth().quadrant().side(), done.words(findings.say()));
        }
      }
    }
    List<String> words = new ArrayList<>();
    steps.forEach((side, step) -> words.add("on the " + side.word() + " " + step));
    findings.visit(
        Rule.H1,
        visit.place(),
        "Work that needs an injection lies on both sides: " + String.join("; ", words) + ".");
  }

  /** That all the work could be numbed otherwise is no leave to block a second side. */
  private void checkSidesOfInjections() {
    Set<Target> needs = visit.injectionNeeds();
    Map<Side, String> bound = new EnumMap<>(Side.class);
    for (Shot shot : visit.shots()) {
      if (shot.kind() != null
          && !shot.bindsNoSide(facts.practice().appointments())
          && needs.stream().anyMatch(shot::numbs)) {
        bound.putIfAbsent(
            shot.given().quadrant().side(), findings.say().injection(shot.given().ref()));
      }
    }
    if (bound.size() > 1) {
      findings.visit(
          Rule.H1,
          visit.place(),
          "Injections numb both sides: " + String.join(" and ", bound.values()) + ".");
    }
  }

  /** Reports blocks given right and left; answers their names. */
  private Set<String> checkDoubleBlock() {
    Map<String, Set<Side>> given = new TreeMap<>();
    for (Shot shot : visit.shots()) {
      Injection kind = shot.kind();
      if (kind != null && kind.neverBothSides()) {
        given
            .computeIfAbsent(kind.name(), name -> EnumSet.noneOf(Side.class))
            .add(shot.given().quadrant().side());
      }
    }
    Set<String> doubled = new TreeSet<>();
    given.forEach(
        (name, sides) -> {
          if (sides.size() > 1) {
            doubled.add(name);
            findings.visit(
                Rule.H2, visit.place(), "The visit gives a right and a left " + name + ".");
          }
        });
    return doubled;
  }

  private void checkUnknown() {
    for (Shot shot : visit.shots()) {
      Tooth tooth = shot.given().tooth();
      if (shot.kind() == null) {
        findings.visit(
            Rule.WORK,
            visit.place(),
            "The practice has no injection "
                + shot.given().injection()
                + " that can be given in "
                + shot.given().quadrant()
                + (tooth == null ? "" : " at tooth " + findings.say().tooth(tooth))
                + ".");
      }
    }
  }

  private void checkNeedless(Set<String> doubled, List<Step> missing) {
    Set<Target> needs = new TreeSet<>(visit.injectionNeeds());
    for (Step step : missing) {
      needs.addAll(facts.needs(step.pass(), step.aspect(), step.teeth()));
    }
    Set<Side> sides = sides(visit, facts.practice());
    Set<String> seen = new TreeSet<>();
    for (Shot shot : visit.shots()) {
      Injection kind = shot.kind();
      if (kind == null) {
        continue;
      }
      String words = findings.say().injection(shot.given().ref());
      boolean twice = !seen.add(words);
      if (!twice && needs.stream().anyMatch(shot::numbs)) {
        continue;
      }
      if (twice) {
        findings.visit(
            Rule.WORK, visit.place(), "The injection " + words + " is given a second time.");
      } else if (doubled.contains(kind.name())) {
        continue;
      } else if (oneSide()
          && !shot.bindsNoSide(facts.practice().appointments())
          && sides.size() == 1
          && !sides.contains(shot.given().quadrant().side())) {
        findings.visit(
            Rule.H1,
            visit.place(),
            "The injection "
                + words
                + " numbs a second side; the work that needs one lies on the "
                + sides.iterator().next().word()
                + ".");
      } else {
        findings.visit(
            Rule.WORK,
            visit.place(),
            "The injection " + words + " numbs nothing that a step of the visit needs.");
      }
    }
  }

  private void checkGelPlaces() {
    for (GelUse use : visit.gels()) {
      Done step = use.step();
      if (step == null || step.needs().isEmpty()) {
        findings.visit(
            Rule.WORK,
            visit.place(),
            use.words(findings.say()) + " serves no step right after it that must be numb.");
      }
    }
  }

  private void checkNumb(Done done) {
    if (done.needs().isEmpty()) {
      return;
    }
    GelUse gel = visit.gel(done);
    String problem = gel == null ? injectionProblem(done) : gelProblem(done, gel);
    if (problem != null) {
      findings.visit(
          Rule.H8, visit.place(), "The step " + done.words(findings.say()) + " " + problem + ".");
    }
  }

  private @Nullable String gelProblem(Done done, GelUse use) {
    Entry.Debride entry = done.entry();
    String fails = facts.gelFails(entry.pass(), entry.aspect(), entry.teeth(), entry.seconds());
    if (fails != null) {
      return "has pocket gel, but " + fails;
    }
    if (!clockHolds) {
      return null;
    }
    Gel gel = facts.practice().gel();
    double ready = use.entry().endSecond() + gel.onsetSeconds().value();
    double expiry = use.entry().endSecond() + 60 * gel.lastsMinutes().value();
    return time(entry, "gel", ready, expiry);
  }

  private @Nullable String injectionProblem(Done done) {
    Set<Target> bare = new TreeSet<>();
    String problem = null;
    for (Target target : done.needs()) {
      List<Shot> shots = visit.shots().stream().filter(shot -> shot.numbs(target)).toList();
      if (shots.isEmpty()) {
        if (!visit.doubtful(target.tooth().quadrant())) {
          bare.add(target);
        }
      } else if (clockHolds && problem == null && shots.stream().allMatch(Shot::known)) {
        problem = targetProblem(done.entry(), target, shots);
      }
    }
    return bare.isEmpty()
        ? problem
        : "has no injection that numbs the " + findings.say().targets(bare);
  }

  /** One injection must have taken before the step and last beyond it. */
  private @Nullable String targetProblem(Entry.Debride entry, Target target, List<Shot> shots) {
    String problem = null;
    for (Shot shot : shots) {
      problem =
          time(
              entry,
              findings.say().targets(List.of(target))
                  + ", by "
                  + findings.say().injection(shot.given().ref())
                  + ",",
              shot.readySecond(target),
              shot.expirySecond(target));
      if (problem == null) {
        return null;
      }
    }
    return problem;
  }

  /** Half a second of slack, for minutes that are no whole seconds. */
  private static @Nullable String time(
      Entry.Debride entry, String what, double ready, double expiry) {
    if (entry.startSecond() < ready - 0.5) {
      return "starts at minute "
          + Say.minutes(entry.startSecond())
          + ", but the "
          + what
          + " is numb only from minute "
          + Say.minutes(ready);
    }
    if (entry.endSecond() > expiry + 0.5) {
      return "ends at minute "
          + Say.minutes(entry.endSecond())
          + ", but the "
          + what
          + " is numb only until minute "
          + Say.minutes(expiry);
    }
    return null;
  }
}
