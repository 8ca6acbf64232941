package quadrille.plan.visit;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.Collections;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Set;
import java.util.TreeSet;
import java.util.function.Predicate;
import java.util.stream.IntStream;
import org.apache.commons.statistics.distribution.LogNormalDistribution;
import org.apache.commons.statistics.distribution.NormalDistribution;
import org.jspecify.annotations.Nullable;
import quadrille.facts.chart.Area;
import quadrille.facts.chart.AreaRef;
import quadrille.facts.chart.Patient;
import quadrille.facts.chart.Quadrant;
import quadrille.facts.chart.Tooth;
import quadrille.facts.chart.Wish;
import quadrille.facts.practice.Agent;
import quadrille.facts.practice.Figure;
import quadrille.facts.practice.Frame;
import quadrille.facts.practice.Injection;
import quadrille.facts.practice.Pass;
import quadrille.facts.practice.PatientRules;
import quadrille.facts.practice.Practice;
import quadrille.plan.anaesthesia.Cover;
import quadrille.plan.anaesthesia.Doses;
import quadrille.plan.anaesthesia.Numbness;
import quadrille.plan.anaesthesia.PlacedInjection;
import quadrille.plan.work.Step;
import quadrille.plan.work.Target;

/**
 * One staging problem: the steps, the number of visits, and everything that does not change while a
 * course is sought, reckoned once. All times are whole seconds. Immutable.
 */
public final class StagingCase {
  private final Practice practice;
  private final Patient patient;
  private final int visits;
  private final boolean grossFirst;
  private final List<StepFact> steps;
  private final List<Area> areas;
  private final List<Block> blocks;
  private final int[][] change;
  private final int[] tips;
  private final int setUp;
  private final int close;
  private final int gelSeconds;
  private final double workFactor;
  private final int unitSeconds;
  private final PatientRules rules;
  private final int longestMinutes;
  private final long[] lateUnit;
  private final double[] burdens;
  private final int quadrantsWithFine;
  private final @Nullable Quadrant startWith;
  private final double injectionWeight;
  private final Map<String, Integer> insertIndexes;
  private final Commitments standing;
  private final Map<AreaRef, Double> burdenOf;
  private final boolean numbFirst;
  private final int teethBeforeLook;
  private final Set<Target> freeOfSide;
  private final AreaWishes wishes;

  /**
   * @param steps the steps to stage, at most {@link StepSet#CAPACITY}; every one of them goes into
   *     some visit
   * @param burdens by area, how much the area suffers, 0 or more; an area that is not named counts
   *     0
   * @param visits exactly so many visits, 1 or more
   */
  public StagingCase(
      Patient patient,
      Practice practice,
      List<Step> steps,
      Map<AreaRef, Double> burdens,
      int visits) {
    this(patient, practice, steps, burdens, visits, false);
  }

  /**
   * @param steps the steps to stage, at most {@link StepSet#CAPACITY}; every one of them goes into
   *     some visit
   * @param burdens by area, how much the area suffers, 0 or more; an area that is not named counts
   *     0
   * @param visits exactly so many visits, 1 or more
   * @param grossFirst whether the gross pass of the whole mouth comes before any fine pass
   */
  public StagingCase(
      Patient patient,
      Practice practice,
      List<Step> steps,
      Map<AreaRef, Double> burdens,
      int visits,
      boolean grossFirst) {
    this(patient, practice, steps, burdens, visits, grossFirst, Commitments.NONE);
  }

  /**
   * @param steps the steps to stage, at most {@link StepSet#CAPACITY}; every one of them goes into
   *     some visit
   * @param burdens by area, how much the area suffers, 0 or more; an area that is not named counts
   *     0
   * @param visits exactly so many visits, 1 or more
   * @param grossFirst whether the gross pass of the whole mouth comes before any fine pass
   * @param standing what stands already, where the course is under way
   */
  public StagingCase(
      Patient patient,
      Practice practice,
      List<Step> steps,
      Map<AreaRef, Double> burdens,
      int visits,
      boolean grossFirst,
      Commitments standing) {
    this(patient, practice, steps, burdens, visits, grossFirst, standing, null);
  }

  private StagingCase(
      Patient patient,
      Practice practice,
      List<Step> steps,
      Map<AreaRef, Double> burdens,
      int visits,
      boolean grossFirst,
      Commitments standing,
      @Nullable Integer longestMinutes) {
    if (steps.size() > StepSet.CAPACITY) {
      throw new IllegalArgumentException(
          "The steps (" + steps.size() + ") must be at most " + StepSet.CAPACITY + ".");
    }
    if (visits < 1) {
      throw new IllegalArgumentException("The visits (" + visits + ") must be 1 or more.");
    }
    for (int visit = 0; visit < standing.slots().size(); visit++) {
      List<Integer> pinned = standing.slot(visit).pinned();
      if (pinned != null && (visit >= visits || !indexes(pinned, steps.size()))) {
        throw new IllegalArgumentException(
            "The pinned steps ("
                + pinned
                + ") of visit "
                + (visit + 1)
                + " must be different steps of the case, in one of its visits.");
      }
    }
    this.practice = practice;
    this.patient = patient;
    this.visits = visits;
    this.grossFirst = grossFirst;
    this.standing = standing;
    this.areas = steps.stream().map(Step::area).distinct().sorted(Area.order()).toList();
    this.insertIndexes = new LinkedHashMap<>();
    Map<String, Integer> blockIndexes = new LinkedHashMap<>();
    List<Block> found = new ArrayList<>();
    List<StepFact> facts = new ArrayList<>();
    for (Step step : steps) {
      insertIndexes.computeIfAbsent(step.insert().name(), name -> insertIndexes.size());
      int area = areas.indexOf(step.area());
      String key = area + " " + step.pass();
      int block = blockIndexes.computeIfAbsent(key, k -> blockIndexes.size());
      StepSet one = StepSet.EMPTY.with(facts.size());
      if (block == found.size()) {
        found.add(new Block(block, step.area(), area, step.pass(), one));
      } else {
        Block old = found.get(block);
        found.set(block, new Block(block, old.area(), area, old.pass(), old.steps().union(one)));
      }
      facts.add(new StepFact(facts.size(), step, area, block));
    }
    this.steps = List.copyOf(facts);
    this.blocks = List.copyOf(found);
    this.change = changeovers(practice, this.steps);
    this.tips = this.steps.stream().mapToInt(this::firstOfTip).toArray();
    this.rules = PatientRules.of(practice, patient);
    this.setUp = seconds(practice.minutes().setUpMinutes()) + seconds(before(false, false));
    this.close = seconds(practice.minutes().closeMinutes()) + seconds(after(false, false));
    this.gelSeconds = practice.gel().applySeconds().asInt() + practice.gel().onsetSeconds().asInt();
    double sigma = practice.minutes().spreadSigma().value();
    double z =
        NormalDistribution.of(0, 1)
            .inverseCumulativeProbability(practice.appointments().certainty().value());
    // The working part is lognormal with the planned seconds as its mean.
    this.workFactor = Math.exp(sigma * z - sigma * sigma / 2);
    this.unitSeconds = seconds(practice.appointments().unitMinutes());
    this.longestMinutes = longestMinutes == null ? rules.longestVisitMinutes() : longestMinutes;
    this.burdenOf = burdens;
    this.burdens = areas.stream().mapToDouble(area -> burden(burdens, area)).toArray();
    double most = Arrays.stream(this.burdens).max().orElse(0);
    double lateWeight = practice.weights().worstLate().value();
    this.lateUnit =
        areas.stream()
            .mapToLong(a -> most == 0 ? 0 : Math.round(lateWeight * burden(burdens, a) / most))
            .toArray();
    this.quadrantsWithFine =
        (int)
            steps.stream()
                .filter(step -> step.pass() == Pass.FINE)
                .map(step -> step.area().quadrant())
                .distinct()
                .count();
    Quadrant wanted = patient.startWith();
    this.startWith =
        steps.stream().anyMatch(step -> step.area().quadrant() == wanted) ? wanted : null;
    Integer teeth = rules.teethBeforeLook();
    this.teethBeforeLook = teeth == null ? Integer.MAX_VALUE : teeth;
    this.numbFirst = rules.numbFirst() || practice.numbing().numbFirst();
    this.wishes = new AreaWishes(patient.wishes(), practice, areas, this.steps, visits, numbFirst);
    this.freeOfSide = freeOfSide(practice);
    this.injectionWeight = practice.weights().injection().value() * rules.injectionWeightFactor();
    if (freeVisits().isEmpty() && pinnedSteps().size() < steps.size()) {
      throw new IllegalArgumentException("Where every visit is pinned, every step must be.");
    }
  }

  /**
   * The same case with visits as long as a limit allows, whatever practice, patient and alerts say.
   */
  public StagingCase within(int minutes) {
    return new StagingCase(
        patient,
        practice,
        steps.stream().map(StepFact::step).toList(),
        burdenOf,
        visits,
        grossFirst,
        standing,
        minutes);
  }

  private static boolean indexes(List<Integer> pinned, int steps) {
    return pinned.stream().distinct().count() == pinned.size()
        && pinned.stream().allMatch(index -> index >= 0 && index < steps);
  }

  private static double burden(Map<AreaRef, Double> burdens, Area area) {
    return Objects.requireNonNull(burdens.getOrDefault(area.ref(), 0.0));
  }

  private static int seconds(Figure minutes) {
    return (int) Math.round(60 * minutes.value());
  }

  private int seconds(List<Frame.Task> tasks) {
    return tasks.stream().mapToInt(practice.frame()::seconds).sum();
  }

  /** The frame of a visit before its work, by its place, 0, 1, 2 … */
  public List<Frame.Task> before(int visit) {
    return before(isFirst(visit), visit == visits - 1);
  }

  /** The frame of a visit after its work. */
  public List<Frame.Task> after(int visit) {
    return after(isFirst(visit), visit == visits - 1);
  }

  private List<Frame.Task> before(boolean first, boolean last) {
    return practice.frame().before(rules.standing(), rules.forbidsRinses(), first, last);
  }

  private List<Frame.Task> after(boolean first, boolean last) {
    return practice.frame().after(rules.standing(), rules.forbidsRinses(), first, last);
  }

  private boolean isFirst(int visit) {
    return visit == 0 && !standing.begun();
  }

  /** Seconds of a visit's frame beyond what is done in every visit. */
  public int frameSeconds(int visit) {
    return seconds(before(visit))
        + seconds(after(visit))
        - seconds(before(false, false))
        - seconds(after(false, false));
  }

  /** The same, of all visits. */
  public int frameSeconds() {
    return IntStream.range(0, visits).map(this::frameSeconds).sum();
  }

  private static int[][] changeovers(Practice practice, List<StepFact> steps) {
    int tip = practice.minutes().tipChangeSeconds().asInt();
    int area = practice.minutes().repositionAreaSeconds().asInt();
    int aspect = practice.minutes().repositionAspectSeconds().asInt();
    int[][] change = new int[steps.size()][steps.size()];
    for (StepFact from : steps) {
      for (StepFact to : steps) {
        change[from.index()][to.index()] =
            tipChange(from, to, tip) + reposition(from, to, area, aspect);
      }
    }
    return change;
  }

  private static int tipChange(StepFact from, StepFact to, int tip) {
    return sameTool(from, to) ? 0 : tip;
  }

  /** Between hand instruments no tip is changed. */
  private static boolean sameTool(StepFact from, StepFact to) {
    return from.step().insert().name().equals(to.step().insert().name())
        || (from.step().insert().hand() && to.step().insert().hand());
  }

  private static int reposition(StepFact from, StepFact to, int area, int aspect) {
    if (from.areaIndex() != to.areaIndex()) {
      return area;
    }
    return from.step().aspect() == to.step().aspect() ? 0 : aspect;
  }

  /** Seconds of the tip change between two steps; 0 where both use the same insert. */
  public int tipSeconds(StepFact from, StepFact to) {
    return tipChange(from, to, practice.minutes().tipChangeSeconds().asInt());
  }

  public Practice practice() {
    return practice;
  }

  public Patient patient() {
    return patient;
  }

  /** What practice and patient allow together. */
  public PatientRules rules() {
    return rules;
  }

  public int visits() {
    return visits;
  }

  public List<StepFact> steps() {
    return steps;
  }

  /** The steps in some areas. */
  public StepSet stepsOf(Predicate<Area> wanted) {
    return union(block -> wanted.test(block.area()));
  }

  /**
   * Whether it can be told without seeking that no course keeps the rules: more sides want
   * injections than there are visits, or all that must be done fills more than all visits.
   */
  public boolean provablyInfeasible() {
    if (wishes.impossible()) {
      return true;
    }
    long sides =
        steps.stream()
            .filter(this::bindsSide)
            .map(fact -> fact.step().area().quadrant().side())
            .distinct()
            .count();
    if (practice.appointments().oneNumbSide() && sides > visits) {
      return true;
    }
    int fixed = visits * (setUp + close) + frameSeconds();
    int working = 0;
    for (StepFact fact : steps) {
      fixed += besideSeconds(fact);
      working += fact.step().seconds();
    }
    return neededSeconds(fixed, working) > (long) visits * longestSeconds();
  }

  /** Whether a step must have an injection that binds its visit to the step's side. */
  public boolean bindsSide(StepFact fact) {
    return fact.step().needs().stream().anyMatch(this::bindsSide);
  }

  /**
   * Whether a target is numbed only by injections that bind a visit to the target's side: neither
   * by one that numbs both sides, nor across the midline.
   */
  public boolean bindsSide(Target target) {
    return !freeOfSide.contains(target);
  }

  private static Set<Target> freeOfSide(Practice practice) {
    boolean across = practice.appointments().midlineInfiltration();
    Set<Target> free = new TreeSet<>();
    for (Tooth tooth : Tooth.values()) {
      for (Injection kind : practice.injections().values()) {
        boolean here = kind.acrossMidline().contains(tooth.position());
        if (kind.jaw() == tooth.quadrant().jaw() && (kind.bothSides() || (across && here))) {
          PlacedInjection placed =
              new PlacedInjection(kind, tooth.quadrant(), kind.perTooth() ? tooth : null);
          Arrays.stream(Target.Kind.values())
              .map(of -> new Target(tooth, of))
              .filter(placed::numbs)
              .forEach(free::add);
        }
      }
    }
    return Collections.unmodifiableSet(free);
  }

  public StepSet allSteps() {
    return stepsOf(area -> true);
  }

  public List<Block> blocks() {
    return blocks;
  }

  public List<Area> areas() {
    return areas;
  }

  /** Whether the whole course is done on one day. */
  public boolean oneDay() {
    return rules.minGapDays() == 0;
  }

  /** Whether all passes of an area lie in one visit (H11). */
  public boolean areasWhole() {
    return practice.appointments().passesTogether().sameVisit();
  }

  /**
   * How many visits on an area that is begun in one may still be worked on (H11); all, where the
   * practice sets no limit.
   */
  public int visitsToFinish() {
    Integer days = practice.appointments().passesTogether().days();
    int gap = rules.leastGapDays();
    return days == null || (gap == 0 && days > 0) ? visits : days == 0 ? 0 : days / gap;
  }

  /** What goes into one visit whole, and may go into any: areas, or passes of areas. */
  public List<StepSet> freeUnits() {
    StepSet pinned = pinnedSteps();
    return areasWhole()
        ? areas.stream()
            .map(area -> stepsOf(area::equals).minus(pinned))
            .filter(steps -> !steps.isEmpty())
            .toList()
        : freeBlocks().stream().map(Block::steps).toList();
  }

  /** The areas of some steps, as bits. */
  public long areasOf(StepSet some) {
    long bits = 0;
    for (int index : some.members()) {
      bits |= 1L << steps.get(index).areaIndex();
    }
    return bits;
  }

  /** How many visits can have work: as many as there are areas, or passes of areas. */
  public int units() {
    return areasWhole() ? areas.size() : blocks.size();
  }

  /** Whether the gross pass of the whole mouth comes before any fine pass. */
  public boolean grossFirst() {
    return grossFirst;
  }

  /**
   * H5: gross before fine before finishing, in one area; the gross pass anywhere, where all of it
   * is wanted first.
   */
  public boolean mustPrecede(StepFact first, StepFact second) {
    Pass one = first.step().pass();
    Pass other = second.step().pass();
    return (first.areaIndex() == second.areaIndex() || (grossFirst && one == Pass.GROSS))
        && one != Pass.IMPLANT_CARE
        && other != Pass.IMPLANT_CARE
        && one.compareTo(other) < 0;
  }

  /** The longest visit in minutes. */
  public int longestMinutes() {
    return longestMinutes;
  }

  public int change(int from, int to) {
    return change[from][to];
  }

  /** Seconds before the work of a visit, that every visit has. */
  public int setUp() {
    return setUp;
  }

  /** Seconds after the work of a visit, that every visit has. */
  public int close() {
    return close;
  }

  /** Seconds that a step brings beside its work: pocket gel before it, and charting. */
  public int besideSeconds(StepFact fact) {
    return secondsBefore(fact) + fact.step().chartSecondsAfter();
  }

  /** Those of them that come just before it. */
  int secondsBefore(StepFact fact) {
    return (fact.step().gel() ? gelSeconds : 0) + fact.step().chartSecondsBefore();
  }

  /**
   * Seconds that must be booked for a visit with so much fixed and working time, where no injection
   * fails.
   */
  public int neededSeconds(int fixed, int working) {
    return fixed + (int) Math.ceil(workFactor * working - 1e-9);
  }

  /**
   * Seconds that must be booked for the working part of a visit, with what a failed injection adds:
   * at most one fails, with its share, and is repeated and waited for.
   *
   * @param cover what the visit injects
   */
  public int neededWorkSeconds(int working, Cover cover) {
    List<Failure> failures = failures(cover);
    int low = neededSeconds(0, working);
    int high = low + failures.stream().mapToInt(Failure::seconds).max().orElse(0);
    double certainty = practice.appointments().certainty().value();
    while (low < high) {
      int middle = (low + high) >>> 1;
      if (chanceWithin(middle, working, failures) >= certainty) {
        high = middle;
      } else {
        low = middle + 1;
      }
    }
    return low;
  }

  /** The chance that a visit's working part, and what a failed injection adds, take no longer. */
  public double chanceWithin(double seconds, int working, Cover cover) {
    return chanceWithin(seconds, working, failures(cover));
  }

  private double chanceWithin(double seconds, int working, List<Failure> failures) {
    double rest = 1;
    double chance = 0;
    double sum = failures.stream().mapToDouble(Failure::share).sum();
    for (Failure failure : failures) {
      double share = failure.share() / Math.max(1, sum);
      rest -= share;
      chance += share * chanceWithin(seconds - failure.seconds(), working);
    }
    return chance + rest * chanceWithin(seconds, working);
  }

  private double chanceWithin(double seconds, int working) {
    double sigma = practice.minutes().spreadSigma().value();
    if (working == 0 || sigma == 0) {
      return seconds >= working ? 1 : 0;
    }
    // The mean of the working part is its planned length, so the median lies sigma²/2 lower in
    // logs.
    return seconds <= 0
        ? 0
        : LogNormalDistribution.of(Math.log(working) - sigma * sigma / 2, sigma)
            .cumulativeProbability(seconds);
  }

  /**
   * An injection that fails now and then.
   *
   * @param seconds to repeat it and to wait for it
   */
  private record Failure(double share, int seconds) {}

  private List<Failure> failures(Cover cover) {
    List<Failure> failures = new ArrayList<>();
    for (PlacedInjection placed : cover.injections()) {
      Figure share = placed.injection().failureShare();
      Agent agent = placed.agent();
      if (share != null && agent != null) {
        failures.add(
            new Failure(
                share.value(),
                placed.seconds(practice.numbing())
                    + Numbness.onsetSeconds(placed.injection(), agent)));
      }
    }
    return failures;
  }

  /** Minutes to book for so many seconds that must be booked: a whole number of units. */
  public int bookedMinutes(int needed) {
    return (needed + unitSeconds - 1) / unitSeconds * unitSeconds / 60;
  }

  /** By how much working time must be stretched to hold with the practice's certainty. */
  public double workFactor() {
    return workFactor;
  }

  /** The longest bookable length, a whole number of units. */
  public int longestSeconds() {
    return bookable(longestMinutes);
  }

  /** The seconds of the whole units in so many minutes. */
  public int bookable(int minutes) {
    return minutes * 60 / unitSeconds * unitSeconds;
  }

  /**
   * Cost of fine passes that wait: for each area and visit, whole seconds by its share of the worst
   * area's burden.
   *
   * @param fineAreas the areas, as bits
   * @param visitsBefore how many visits come before
   */
  public long lateCost(long fineAreas, int visitsBefore) {
    long cost = 0;
    for (long rest = fineAreas; rest != 0; rest &= rest - 1) {
      cost += lateUnit[Long.numberOfTrailingZeros(rest)] * visitsBefore;
    }
    return cost;
  }

  /**
   * Cost of areas that are begun and not finished in the visits after which they wait; none where
   * all passes of an area lie in one visit.
   *
   * @param areas of each visit in order, as bits
   */
  public long leftOpenCost(long... areas) {
    long[] later = new long[areas.length + 1];
    for (int visit = areas.length - 1; visit >= 0; visit--) {
      later[visit] = later[visit + 1] | areas[visit];
    }
    long begun = 0;
    long open = 0;
    for (int visit = 0; visit < areas.length; visit++) {
      begun |= areas[visit];
      open += Long.bitCount(begun & later[visit + 1]);
    }
    return areasWhole() ? 0 : open * Math.round(practice.weights().areaLeftOpen().value());
  }

  /** Whole seconds that a return to a quadrant costs, beside its time. */
  public int returnSeconds() {
    return (int) Math.round(practice.weights().returnToQuadrant().value());
  }

  /** How often an order comes back to a quadrant that it has left. */
  public int returns(int... order) {
    int left = 0;
    int returns = 0;
    for (int i = 1; i < order.length; i++) {
      int from = quadrant(order[i - 1]);
      int to = quadrant(order[i]);
      if (from != to) {
        left |= 1 << from;
        returns += left >>> to & 1;
      }
    }
    return returns;
  }

  /** Whole seconds that it costs to give a deep block before the look at the bleeding. */
  int blockBeforeLookSeconds() {
    return (int) Math.round(rules.blockBeforeLookSeconds());
  }

  /** Whole seconds that injections between two steps of one pass of an area cost. */
  int needleWithinAreaSeconds() {
    return (int) Math.round(practice.weights().needleWithinArea().value());
  }

  /** The quadrant of a step, by its place among the four. */
  int quadrant(int step) {
    return steps.get(step).step().area().quadrant().ordinal();
  }

  /**
   * Whole seconds that it costs to begin a visit with a step, by how much less its area is burdened
   * than the visit's worst.
   *
   * @param members all steps of the visit
   */
  public int worstFirstSeconds(int first, int... members) {
    double worst = 0;
    for (int index : members) {
      worst = Math.max(worst, burdens[steps.get(index).areaIndex()]);
    }
    double share = worst == 0 ? 1 : burdens[steps.get(first).areaIndex()] / worst;
    return (int) Math.round(practice.weights().worstFirst().value() * (1 - share));
  }

  /**
   * The second at which a visit's last step must have ended, so that what is booked for it fits.
   *
   * @param longestSeconds the most that may be booked
   */
  public int latestWorkEnd(SetEvaluation set, SetEvaluation.Dosing dosing, int longestSeconds) {
    return longestSeconds - dosing.neededWorkSeconds() + set.workSeconds() - set.closeSeconds(this);
  }

  /** Whether nothing is touched before it is numb. */
  public boolean numbFirst() {
    return numbFirst;
  }

  /**
   * Whether a visit may begin with a step. Where nothing is touched before it is numb, a visit that
   * numbs anything begins there.
   */
  boolean mayBegin(int step, SetEvaluation.Dosing dosing) {
    return !numbFirst || dosing.groupSeconds().length == 0 || dosing.needs()[step] != null;
  }

  /** Seconds of a look at the bleeding of a visit's first teeth. */
  public int lookSeconds() {
    return seconds(practice.minutes().lookMinutes());
  }

  /** How many teeth may be worked on before that look; as many as there are where none is due. */
  int teethBeforeLook() {
    return teethBeforeLook;
  }

  /** The teeth of a step, as bits. */
  int teethBits(int step) {
    int bits = 0;
    for (Tooth tooth : steps.get(step).step().teeth()) {
      bits |= 1 << 8 * tooth.quadrant().ordinal() + tooth.position() - 1;
    }
    return bits;
  }

  /** Whether a visit of these steps must be looked at before it goes on. */
  boolean looks(int... members) {
    int teeth = 0;
    for (int step : members) {
      teeth |= teethBits(step);
    }
    return Integer.bitCount(teeth) > teethBeforeLook;
  }

  /**
   * After how many steps of an order the bleeding may be looked at: all passes and aspects of no
   * more than so many teeth are done, and nothing of them is left. Empty where there is no such
   * place, or no look is due.
   */
  List<Integer> placesToLook(int... order) {
    List<Integer> places = new ArrayList<>();
    if (!looks(order)) {
      return places;
    }
    int[] left = new int[order.length + 1];
    for (int i = order.length - 1; i >= 0; i--) {
      left[i] = left[i + 1] | teethBits(order[i]);
    }
    int done = 0;
    for (int i = 0; i < order.length; i++) {
      done |= teethBits(order[i]);
      if (Integer.bitCount(done) <= teethBeforeLook && (done & left[i + 1]) == 0) {
        places.add(i + 1);
      }
    }
    return places;
  }

  /** What is wished of areas and visits. */
  public AreaWishes wishes() {
    return wishes;
  }

  /** Whether the work itself keeps a wish about how it is done. */
  public boolean keptByWork(Wish wish) {
    return AreaWishes.keptByWork(wish, steps, numbFirst);
  }

  public @Nullable Quadrant startWith() {
    return startWith;
  }

  public int epinephrineCapMicrograms() {
    return (int) Math.floor(1000 * rules.epinephrineCapMg() + 1e-6);
  }

  /** Cost of the longest visit's seconds above the mean. */
  public long balanceCost(double secondsAboveMean) {
    return Math.round(practice.weights().balance().value() * secondsAboveMean);
  }

  /** Cost of fine passes spread over visits: counted once for each quadrant and visit. */
  public long splitCost(int quadrantVisits) {
    return Math.round(
        practice.weights().splitQuadrant().value() * (quadrantVisits - quadrantsWithFine));
  }

  /** How many quadrants have a fine pass to do. */
  public int quadrantsWithFine() {
    return quadrantsWithFine;
  }

  /** Seconds that an injection costs beside its time. */
  public double injectionWeight() {
    return injectionWeight;
  }

  /** Seconds that a deep block costs more than an infiltration. */
  public double blockPrice() {
    return rules.blockPriceSeconds();
  }

  /**
   * @param deepBlocks how many of the injections are deep blocks
   * @param strongBlockSeconds what the agents of lower blocks cost
   */
  public long injectionCost(int number, int deepBlocks, int strongBlockSeconds) {
    return Math.round(injectionWeight * number + blockPrice() * deepBlocks) + strongBlockSeconds;
  }

  /** The same of one visit, with what no room to repeat costs, not rounded. */
  public double injectionPrice(SetEvaluation.Dosing dosing) {
    return injectionWeight * dosing.injections()
        + blockPrice() * dosing.deepBlocks()
        + dosing.strongBlockSeconds()
        + noRoomPrice() * dosing.noRoomToRepeat();
  }

  /** Seconds that it costs where the doses leave no room to repeat an injection that may fail. */
  public double noRoomPrice() {
    return practice.weights().noRoomToRepeat().value();
  }

  public long noRoomCost(int number) {
    return Math.round(noRoomPrice() * number);
  }

  /** Seconds that a visit costs beside its time. */
  public double visitPrice() {
    return rules.visitPriceSeconds();
  }

  public long visitCost(int number) {
    return Math.round(visitPrice() * number);
  }

  public long cartridgeCost(int number) {
    return Math.round(practice.weights().cartridge().value() * number);
  }

  /** By the case's index, where all hand instruments are one: what a tip change is between. */
  public int tipIndex(StepFact step) {
    return tips[step.index()];
  }

  private int firstOfTip(StepFact step) {
    return steps.stream()
        .filter(other -> sameTool(other, step))
        .findFirst()
        .map(this::insertIndex)
        .orElseGet(() -> insertIndex(step));
  }

  public int insertIndex(StepFact step) {
    return Objects.requireNonNull(insertIndexes.get(step.step().insert().name()));
  }

  /**
   * The sterile sets of each insert that may be short: where all visits are on one day, or where
   * some were opened earlier on the day of the first one.
   */
  public List<InsertStock> stocks() {
    List<InsertStock> stocks = new ArrayList<>();
    insertIndexes.forEach(
        (name, index) -> {
          int opened = standing.setsOpened().getOrDefault(name, 0);
          if (oneDay() || opened > 0) {
            int owned = Objects.requireNonNull(practice.inserts().get(name)).sterileSets();
            stocks.add(new InsertStock(index, Math.max(0, owned - opened), oneDay() ? visits : 1));
          }
        });
    return stocks;
  }

  private StepSet union(Predicate<Block> wanted) {
    StepSet all = StepSet.EMPTY;
    for (Block block : blocks) {
      if (wanted.test(block)) {
        all = all.union(block.steps());
      }
    }
    return all;
  }

  /** Thousandths of the maximum doses that were given before the first visit, on its day. */
  public int earlierPermille() {
    return permille(earlierDoses().share());
  }

  /** Micrograms of epinephrine that were given before the first visit, on its day. */
  public int earlierMicrograms() {
    return micrograms(earlierDoses().epinephrineMg());
  }

  static int permille(double share) {
    return (int) Math.min(1_000_000, Math.ceil(1000 * share - 1e-6));
  }

  static int micrograms(double mg) {
    return (int) Math.ceil(1000 * mg - 1e-6);
  }

  private Doses.Check earlierDoses() {
    return new Doses(practice, patient)
        .check(standing.given(), standing.gelCartridges(), List.of());
  }

  /** What stands already. */
  public Commitments standing() {
    return standing;
  }

  /** Steps that stay in their visit, in their place. */
  public StepSet pinnedSteps() {
    StepSet all = StepSet.EMPTY;
    for (int visit = 0; visit < visits; visit++) {
      all = all.union(pinned(visit));
    }
    return all;
  }

  /** Steps that stay in a visit, by its place; empty where it is free. */
  public StepSet pinned(int visit) {
    StepSet set = StepSet.EMPTY;
    List<Integer> pinned = standing.slot(visit).pinned();
    if (pinned != null) {
      for (int index : pinned) {
        set = set.with(index);
      }
    }
    return set;
  }

  /** Places of the visits that may change, ascending. */
  public List<Integer> freeVisits() {
    return IntStream.range(0, visits)
        .filter(visit -> standing.slot(visit).pinned() == null)
        .boxed()
        .toList();
  }

  /** Blocks of which no step is pinned. */
  public List<Block> freeBlocks() {
    StepSet pinned = pinnedSteps();
    return blocks.stream().filter(block -> block.steps().intersection(pinned).isEmpty()).toList();
  }

  @Override
  public String toString() {
    return steps.size() + " steps in " + visits + " visits";
  }
}
