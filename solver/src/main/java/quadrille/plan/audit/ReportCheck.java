package quadrille.plan.audit;

import java.util.ArrayList;
import java.util.Collection;
import java.util.EnumMap;
import java.util.EnumSet;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Set;
import java.util.TreeSet;
import org.jspecify.annotations.Nullable;
import quadrille.facts.chart.AreaRef;
import quadrille.facts.chart.Aspect;
import quadrille.facts.chart.Numbering;
import quadrille.facts.chart.Quadrant;
import quadrille.facts.chart.Side;
import quadrille.facts.chart.Site;
import quadrille.facts.chart.Tooth;
import quadrille.facts.practice.Agent;
import quadrille.facts.practice.AlertRule;
import quadrille.facts.practice.Appointments;
import quadrille.facts.practice.Figure;
import quadrille.facts.practice.Injection;
import quadrille.facts.practice.Pass;
import quadrille.facts.practice.Practice;
import quadrille.facts.practice.Weights;
import quadrille.plan.course.Course;
import quadrille.plan.course.CourseTerm;
import quadrille.plan.course.Dose;
import quadrille.plan.course.Entry;
import quadrille.plan.course.NumbSide;
import quadrille.plan.course.PlanFile;
import quadrille.plan.course.Visit;
import quadrille.plan.work.Step;

/**
 * What the plan says of itself, against what follows from its own sequence and injections. What
 * follows from a fault that has a finding of its own is not reported once more: times of a visit
 * whose clock is broken, and the whereabouts of work that is not the chart's.
 */
final class ReportCheck {

  /** Half of the last decimal that a plan file keeps, and a hair. */
  private static final double CENT = 0.005 + 1e-9;

  private static final double MYRIAD = 0.00005 + 1e-9;

  /** As in the measure of burden: what lies above it counts. */
  private static final double HEALTHY_MM = 3;

  private final Course course;
  private final List<VisitParts> visits;
  private final Set<Integer> soundClocks;
  private final boolean workSound;
  private final List<Step> due;
  private final Facts facts;
  private final Findings findings;

  /**
   * @param soundClocks places of the visits whose clock holds
   * @param workSound whether the steps of the plan are just those of the work
   * @param due the steps of the work that are not held back
   */
  ReportCheck(
      Course course,
      List<VisitParts> visits,
      Set<Integer> soundClocks,
      boolean workSound,
      List<Step> due,
      Facts facts,
      Findings findings) {
    this.course = course;
    this.visits = visits;
    this.soundClocks = soundClocks;
    this.workSound = workSound;
    this.due = due;
    this.facts = facts;
    this.findings = findings;
  }

  void check() {
    if (!course.caseName().equals(facts.chart().caseName())) {
      findings.course(
          Rule.REPORT,
          "The plan is for the case "
              + course.caseName()
              + ", the chart for "
              + facts.chart().caseName()
              + ".");
    }
    Appointments appointments = practice().appointments();
    int from = appointments.reevaluateFromWeeks().asInt();
    int to = appointments.reevaluateToWeeks().asInt();
    if (course.reevaluateFromWeeks() != from || course.reevaluateToWeeks() != to) {
      differs(
          null,
          "weeks until re-evaluation",
          course.reevaluateFromWeeks() + " to " + course.reevaluateToWeeks(),
          from + " to " + to);
    }
    for (VisitParts visit : visits) {
      checkVisit(visit);
    }
    checkCost();
  }

  private Practice practice() {
    return facts.practice();
  }

  private boolean soundClock(VisitParts visit) {
    return soundClocks.contains(visit.place());
  }

  private void checkVisit(VisitParts reading) {
    Visit visit = reading.visit();
    int place = reading.place();
    checkNumbSide(reading);
    if (workSound) {
      Set<AreaRef> areas = new LinkedHashSet<>();
      reading.done().forEach(done -> areas.add(done.entry().area()));
      checkWords(place, "areas", words(visit.areas()), words(areas));
      checkWords(place, "tray", visit.tray(), List.copyOf(reading.inserts()));
      WatchCheck.check(reading, facts, findings);
    }
    for (Done done : reading.done()) {
      if (done.agrees() && done.entry().needsNumb() == done.needs().isEmpty()) {
        differs(
            place,
            "need of numbness of the step " + done.words(findings.say()),
            done.entry().needsNumb() + "",
            !done.entry().needsNumb() + "");
      }
    }
    checkVolumes(reading);
    checkOrderOfInjections(reading);
    checkDoses(reading);
    if (soundClock(reading)) {
      checkBooking(reading);
    }
  }

  private void checkNumbSide(VisitParts reading) {
    NumbSide stated = reading.visit().numbSide();
    NumbSide given = NumbCheck.numbSide(reading, practice());
    Set<Side> needs = NumbCheck.sides(reading, practice());
    // Where work and injections disagree, that has a finding of its own.
    boolean other = needs.size() == 1 && stated == NumbSide.of(needs.iterator().next());
    if (stated != given && !other) {
      differs(reading.place(), "numb side", stated.word(), given.word());
    }
  }

  private void checkVolumes(VisitParts reading) {
    for (Shot shot : reading.shots()) {
      Injection kind = shot.kind();
      if (kind != null
          && kind.volumes().stream()
              .noneMatch(one -> Math.abs(one.ml().value() - shot.given().ml()) <= MYRIAD)) {
        differs(
            reading.place(),
            "volume of the injection " + findings.say().injection(shot.given().ref()),
            Say.number(shot.given().ml(), 4) + " mL",
            String.join(
                    " or ",
                    kind.volumes().stream().map(one -> Say.number(one.ml().value(), 4)).toList())
                + " mL");
      }
    }
  }

  private void checkOrderOfInjections(VisitParts reading) {
    int before = -1;
    for (Shot shot : reading.shots()) {
      if (shot.entry() != null) {
        if (shot.entry().startSecond() < before && soundClock(reading)) {
          List<String> words =
              reading.visit().injections().stream()
                  .map(one -> findings.say().injection(one.ref()))
                  .toList();
          differs(reading.place(), "order of the injections", Say.list(words), "the clock's order");
          return;
        }
        before = shot.entry().startSecond();
      }
    }
  }

  private void checkDoses(VisitParts reading) {
    Visit visit = reading.visit();
    int place = reading.place();
    DoseReading own = DoseReading.of(reading, practice());
    boolean agentsKnown = reading.shots().stream().allMatch(shot -> shot.agent() != null);
    if (facts.patient().weightKg() != null && agentsKnown) {
      checkDoseList(place, visit.doses(), own.doses(practice(), facts.patient().weightKg()));
    }
    if (!agentsKnown) {
      return;
    }
    if (Math.abs(visit.epinephrineMg() - own.epinephrineMg()) > MYRIAD) {
      differs(
          place,
          "epinephrine",
          Say.number(visit.epinephrineMg(), 4) + " mg",
          Say.number(own.epinephrineMg(), 4) + " mg");
    }
    if (visit.cartridges() != own.cartridges()) {
      differs(place, "cartridges opened", visit.cartridges() + "", own.cartridges() + "");
    }
    if (Math.abs(visit.gelCartridges() - own.gelCartridges()) > MYRIAD) {
      differs(
          place,
          "gel cartridges",
          Say.number(visit.gelCartridges(), 4),
          Say.number(own.gelCartridges(), 4));
    }
  }

  private void checkDoseList(int place, List<Dose> stated, List<Dose> due) {
    boolean same = stated.size() == due.size();
    for (int i = 0; same && i < due.size(); i++) {
      Dose one = stated.get(i);
      Dose other = due.get(i);
      same =
          one.agent().equals(other.agent())
              && Math.abs(one.mg() - other.mg()) <= CENT
              && Math.abs(one.maxMg() - other.maxMg()) <= CENT
              && Math.abs(one.share() - other.share()) <= MYRIAD;
    }
    if (!same) {
      differs(place, "doses", doses(stated), doses(due));
    }
  }

  private static String doses(List<Dose> doses) {
    List<String> words = new ArrayList<>();
    for (Dose dose : doses) {
      words.add(
          dose.agent()
              + " "
              + Say.number(dose.mg(), 2)
              + " of "
              + Say.number(dose.maxMg(), 2)
              + " (share "
              + Say.number(dose.share(), 4)
              + ")");
    }
    return Say.list(words);
  }

  private void checkBooking(VisitParts reading) {
    Visit visit = reading.visit();
    BookedLength booking = BookedLength.of(reading, practice());
    int due = booking.minutes();
    if (visit.bookedMinutes() != due) {
      differs(reading.place(), "booked minutes", visit.bookedMinutes() + "", due + "");
    }
    double risk = 1 - booking.chanceWithin(due);
    double ofStated = 1 - booking.chanceWithin(visit.bookedMinutes());
    if (Math.abs(visit.overrunRisk() - risk) > MYRIAD
        && Math.abs(visit.overrunRisk() - ofStated) > MYRIAD) {
      differs(
          reading.place(),
          "risk of running over",
          Say.number(visit.overrunRisk(), 4),
          Say.number(risk, 4));
    }
  }

  private void checkWords(int place, String what, List<String> stated, List<String> due) {
    if (!stated.equals(due)) {
      differs(place, what, Say.list(stated), Say.list(due));
    }
  }

  private List<String> words(Collection<AreaRef> areas) {
    return areas.stream().map(findings.say()::area).toList();
  }

  private void checkCost() {
    Map<CourseTerm, Long> due = costTerms();
    Map<CourseTerm, Long> stated = course.cost().terms();
    boolean faulty = false;
    for (Map.Entry<CourseTerm, Long> term : due.entrySet()) {
      @Nullable Long value = stated.get(term.getKey());
      // A term of nothing may be left out.
      if (value == null ? term.getValue() != 0 : !value.equals(term.getValue())) {
        faulty = true;
        differs(
            null,
            "cost term " + term.getKey().key(),
            value == null ? "nothing" : value + " s",
            term.getValue() + " s");
      }
    }
    long sum = stated.values().stream().mapToLong(Long::longValue).sum();
    if (!faulty && course.cost().seconds() != sum) {
      differs(null, "cost", course.cost().seconds() + " s", sum + " s, the sum of its terms");
    }
    if (course.cost().lowerBoundSeconds() > Math.max(sum, course.cost().seconds())) {
      differs(
          null,
          "lower bound on the cost",
          course.cost().lowerBoundSeconds() + " s",
          "at most the cost, " + course.cost().seconds() + " s");
    }
    boolean proven = course.cost().seconds() <= course.cost().lowerBoundSeconds();
    if (course.cost().provenBest() != proven) {
      differs(
          null,
          "proven best",
          Boolean.toString(course.cost().provenBest()),
          proven + ", since the cost " + (proven ? "meets" : "is above") + " its lower bound");
    }
  }

  /** The terms that can be worked out here and now. */
  private Map<CourseTerm, Long> costTerms() {
    Weights weights = practice().weights();
    Map<CourseTerm, Long> terms = new EnumMap<>(CourseTerm.class);
    long chair = course.chairSeconds();
    if (soundClocks.size() == visits.size()) {
      terms.put(CourseTerm.CHAIR_TIME, chair);
      int longest = course.visits().stream().mapToInt(Visit::expectedSeconds).max().orElse(0);
      double mean = visits.isEmpty() ? 0 : (double) chair / visits.size();
      terms.put(CourseTerm.BALANCE, Math.round(weights.balance().value() * (longest - mean)));
    }
    if (workSound) {
      terms.put(CourseTerm.SPLIT_QUADRANT, splitQuadrant(weights.splitQuadrant().value()));
      terms.put(CourseTerm.WORST_AREAS_LATE, worstLate(weights.worstLate().value()));
      terms.put(CourseTerm.RETURNS, Math.round(weights.returnToQuadrant().value()) * returns());
      terms.put(CourseTerm.WORST_FIRST, worstFirst(weights.worstFirst().value()));
      terms.put(CourseTerm.LEFT_OPEN, Math.round(weights.areaLeftOpen().value()) * leftOpen());
      terms.put(
          CourseTerm.NEEDLES_WITHIN_AREA,
          Math.round(weights.needleWithinArea().value()) * needlesWithinArea());
    }
    double factor = 1;
    double block = 0;
    double each = 0;
    double early = 0;
    for (AlertRule rule : facts.alertRules()) {
      if (rule.injectionWeightFactor() != null) {
        factor = Math.max(factor, rule.injectionWeightFactor().value());
      }
      if (rule.blockPriceSeconds() != null) {
        block = Math.max(block, rule.blockPriceSeconds().value());
      }
      if (rule.blockBeforeLookSeconds() != null) {
        early = Math.max(early, rule.blockBeforeLookSeconds().value());
      }
      if (rule.visitPriceSeconds() != null) {
        each = Math.max(each, rule.visitPriceSeconds().value());
      }
    }
    long blocks =
        visits.stream()
            .flatMap(one -> one.shots().stream())
            .map(Shot::kind)
            .filter(Objects::nonNull)
            .filter(kind -> kind.deepBlock())
            .count();
    terms.put(
        CourseTerm.INJECTIONS,
        Math.round(weights.injection().value() * factor * course.injections() + block * blocks)
            + strongBlocks());
    if (soundClocks.size() == visits.size()) {
      terms.put(CourseTerm.BLOCKS_BEFORE_LOOK, Math.round(early) * blocksBeforeLook());
    }
    terms.put(
        CourseTerm.NO_ROOM_TO_REPEAT,
        Math.round(weights.noRoomToRepeat().value() * noRoomToRepeat()));
    if (!course.wishes().isEmpty()) {
      terms.put(CourseTerm.WISHES, WishCheck.cost(course, visits, facts));
    }
    terms.put(CourseTerm.VISITS, Math.round(each * visits.size()));
    int opened =
        visits.stream().mapToInt(visit -> DoseReading.of(visit, practice()).cartridges()).sum();
    terms.put(CourseTerm.CARTRIDGES, Math.round(weights.cartridge().value() * opened));
    return terms;
  }

  /** What agents cost in the lower blocks of each visit; whole seconds. */
  private long strongBlocks() {
    long all = 0;
    for (VisitParts visit : visits) {
      double seconds = 0;
      for (Shot shot : visit.shots()) {
        Injection kind = shot.kind();
        Figure price = shot.agent() == null ? null : shot.agent().lowerBlockPriceSeconds();
        seconds += price != null && kind != null && kind.lowerBlock() ? price.value() : 0;
      }
      all += Math.round(seconds);
    }
    return all;
  }

  /** Injections that may fail and could not be given once more within their visit's own doses. */
  private long noRoomToRepeat() {
    long without = 0;
    for (VisitParts visit : visits) {
      DoseReading own = DoseReading.of(visit, practice());
      for (Shot shot : visit.shots()) {
        Injection kind = shot.kind();
        Agent agent = shot.agent();
        if (kind != null && kind.failureShare() != null && agent != null) {
          without += DoseCheck.holds(facts, own.plus(agent, shot.given().ml())) ? 0 : 1;
        }
      }
    }
    return without;
  }

  /** For each quadrant, the visits with fine work in it, less one. */
  private long splitQuadrant(double weight) {
    int more = 0;
    for (Quadrant quadrant : Quadrant.values()) {
      Set<Integer> places = new TreeSet<>();
      for (VisitParts visit : visits) {
        for (Done done : visit.done()) {
          Step step = done.step();
          if (step != null && step.pass() == Pass.FINE && step.area().quadrant() == quadrant) {
            places.add(visit.place());
          }
        }
      }
      more += Math.max(0, places.size() - 1);
    }
    return Math.round(weight * more);
  }

  /**
   * For each area with a fine pass, the visits that it waits, by its burden beside that of the
   * worst area with work that is not held back; whole seconds an area and visit.
   */
  private long worstLate(double weight) {
    Map<AreaRef, Double> burdens = new LinkedHashMap<>();
    for (Step step : due) {
      burdens.computeIfAbsent(step.area().ref(), area -> burden(step.area().teeth()));
    }
    double most = burdens.values().stream().mapToDouble(Double::doubleValue).max().orElse(0);
    if (most == 0) {
      return 0;
    }
    long sum = 0;
    Set<AreaRef> seen = new TreeSet<>();
    for (VisitParts visit : visits) {
      for (Done done : visit.done()) {
        Step step = done.step();
        if (step != null && step.pass() == Pass.FINE && seen.add(step.area().ref())) {
          double share = burden(step.area().teeth()) / most;
          sum += Math.round(weight * share) * (visit.place() - 1);
        }
      }
    }
    return sum;
  }

  /** For each area, the visits from its first to its last, less one; 0 where one must hold all. */
  private long leftOpen() {
    if (!course.grossFirst() && practice().appointments().passesTogether().sameVisit()) {
      return 0;
    }
    Map<AreaRef, Integer> begun = new LinkedHashMap<>();
    Map<AreaRef, Integer> finished = new LinkedHashMap<>();
    for (VisitParts visit : visits) {
      for (Done done : visit.done()) {
        begun.putIfAbsent(done.entry().area(), visit.place());
        finished.put(done.entry().area(), visit.place());
      }
    }
    long open = 0;
    for (Map.Entry<AreaRef, Integer> area : begun.entrySet()) {
      open += Objects.requireNonNull(finished.get(area.getKey())) - area.getValue();
    }
    return open;
  }

  /** How often a visit works in a quadrant, then in another, then there again. */
  private long returns() {
    long returns = 0;
    for (VisitParts visit : visits) {
      Set<Quadrant> met = EnumSet.noneOf(Quadrant.class);
      Quadrant here = null;
      for (Done done : visit.done()) {
        Quadrant quadrant = done.entry().area().quadrant();
        if (!met.add(quadrant) && quadrant != here) {
          returns++;
        }
        here = quadrant;
      }
    }
    return returns;
  }

  /** In how many quadrants a deep block is given before the look of its visit. */
  private long blocksBeforeLook() {
    long early = 0;
    for (VisitParts visit : visits) {
      Set<Quadrant> given = EnumSet.noneOf(Quadrant.class);
      Entry look =
          visit.visit().sequence().stream()
              .filter(Entry.Look.class::isInstance)
              .findFirst()
              .orElse(null);
      for (Shot shot : visit.shots()) {
        Injection kind = shot.kind();
        Entry entry = shot.entry();
        if (look != null
            && kind != null
            && kind.deepBlock()
            && entry != null
            && entry.startSecond() < look.startSecond()) {
          given.add(shot.given().quadrant());
        }
      }
      early += given.size();
    }
    return early;
  }

  /** How often a needle comes between two steps of one pass of an area, and no look does. */
  private long needlesWithinArea() {
    long times = 0;
    for (VisitParts visit : visits) {
      Done before = null;
      for (Done done : visit.done()) {
        if (before != null
            && before.entry().area().equals(done.entry().area())
            && before.entry().pass() == done.entry().pass()) {
          List<Entry> between = visit.visit().sequence().subList(before.index() + 1, done.index());
          times +=
              between.stream().anyMatch(entry -> entry.kind() == Entry.Kind.INJECT)
                      && between.stream().noneMatch(Entry.Look.class::isInstance)
                  ? 1
                  : 0;
        }
        before = done;
      }
    }
    return times;
  }

  /** For each visit, how much less its first area is burdened than its worst; whole seconds. */
  private long worstFirst(double weight) {
    long sum = 0;
    for (VisitParts visit : visits) {
      List<Double> burdens = new ArrayList<>();
      for (Done done : visit.done()) {
        Step step = done.step();
        burdens.add(step == null ? 0 : burden(step.area().teeth()));
      }
      double worst = burdens.stream().mapToDouble(Double::doubleValue).max().orElse(0);
      sum += worst == 0 ? 0 : Math.round(weight * (1 - burdens.get(0) / worst));
    }
    return sum;
  }

  /** The sum over sites of the depth above 3 mm. */
  private double burden(List<Tooth> teeth) {
    double sum = 0;
    for (Tooth tooth : teeth) {
      for (Aspect aspect : Aspect.values()) {
        for (Site site : facts.sites(tooth, aspect)) {
          sum += Math.max(0, facts.depth(site) - HEALTHY_MM);
        }
      }
    }
    return sum;
  }

  /** The sums that a plan file states beside its course. */
  void checkSums(PlanFile plan) {
    Numbering own = facts.chart().numbering();
    Numbering numbering = plan.numbering();
    if (numbering != null && numbering != own) {
      differs(null, "numbering", numbering.word(), own.word() + ", the chart's");
    }
    for (VisitParts visit : visits) {
      PlanFile.VisitSums stated = plan.visits().get(visit.place() - 1);
      PlanFile.VisitSums due = PlanFile.VisitSums.of(visit.visit());
      List<Tooth> front = NumbCheck.front(visit, practice());
      if (!stated.numbFront().equals(front)) {
        differs(
            visit.place(),
            "front teeth numbed across the midline",
            Say.list(stated.numbFront().stream().map(findings.say()::tooth).toList()),
            Say.list(front.stream().map(findings.say()::tooth).toList()));
      }
      if (stated.rescue() != null && !stated.rescue().equals(due.rescue())) {
        differs(
            visit.place(),
            "room for the repeat of a block that fails",
            stated.rescue() ? "some" : "none",
            due.rescue() == null ? "no such block" : due.rescue() ? "some" : "none");
      }
      if (soundClock(visit)) {
        checkMinutes(
            visit.place(), "expected minutes", stated.expectedMinutes(), due.expectedMinutes());
        checkCount(visit.place(), "tip changes", stated.tipChanges(), due.tipChanges());
      }
    }
    PlanFile.Totals stated = plan.totals();
    PlanFile.Totals due = PlanFile.Totals.of(course);
    checkCount(null, "total of visits", stated.visits(), due.visits());
    if (soundClocks.size() == visits.size()) {
      checkMinutes(null, "total of chair minutes", stated.chairMinutes(), due.chairMinutes());
      checkCount(null, "total of tip changes", stated.tipChanges(), due.tipChanges());
      int booked = visits.stream().mapToInt(v -> BookedLength.of(v, practice()).minutes()).sum();
      if (stated.bookedMinutes() != booked) {
        checkCount(null, "total of booked minutes", stated.bookedMinutes(), due.bookedMinutes());
      }
    }
    checkCount(null, "total of injections", stated.injections(), due.injections());
    int opened = visits.stream().mapToInt(v -> DoseReading.of(v, practice()).cartridges()).sum();
    if (stated.cartridges() != opened) {
      checkCount(null, "total of cartridges", stated.cartridges(), due.cartridges());
    }
  }

  private void checkMinutes(@Nullable Integer place, String what, double stated, double due) {
    if (Math.abs(stated - due) > CENT) {
      differs(place, what, Say.number(stated, 2), Say.number(due, 2));
    }
  }

  private void checkCount(@Nullable Integer place, String what, int stated, int due) {
    if (stated != due) {
      differs(place, what, stated + "", due + "");
    }
  }

  private void differs(@Nullable Integer place, String what, String stated, String due) {
    String message =
        "The plan states as " + what + " " + stated + "; worked out again: " + due + ".";
    if (place == null) {
      findings.course(Rule.REPORT, message);
    } else {
      findings.visit(Rule.REPORT, place, message);
    }
  }
}
