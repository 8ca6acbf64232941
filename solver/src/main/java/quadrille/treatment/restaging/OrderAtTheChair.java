package quadrille.treatment.restaging;

import java.util.ArrayList;
import java.util.Collections;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Optional;
import java.util.TreeMap;
import java.util.stream.IntStream;
import org.jspecify.annotations.Nullable;
import quadrille.facts.chart.Chart;
import quadrille.facts.chart.Patient;
import quadrille.facts.chart.Quadrant;
import quadrille.facts.practice.Practice;
import quadrille.plan.anaesthesia.Doses;
import quadrille.plan.audit.Audit;
import quadrille.plan.course.Before;
import quadrille.plan.course.Course;
import quadrille.plan.course.Entry;
import quadrille.plan.course.HardRule;
import quadrille.plan.course.Visit;
import quadrille.plan.course.WishOutcome;
import quadrille.plan.planning.CoursePlanner;
import quadrille.plan.planning.DeferredWork;
import quadrille.plan.planning.Remedies;
import quadrille.plan.staging.Stager;
import quadrille.plan.visit.Begun;
import quadrille.plan.visit.BegunVisit;
import quadrille.plan.visit.CaseEvaluator;
import quadrille.plan.visit.Commitments;
import quadrille.plan.visit.StagingCase;
import quadrille.plan.visit.StepSet;
import quadrille.plan.visit.VisitTimeline;
import quadrille.plan.work.Burden;
import quadrille.plan.work.DoneWork;
import quadrille.plan.work.Step;
import quadrille.plan.work.UnworkableException;
import quadrille.plan.work.WorkList;
import quadrille.plan.work.WorkPlanner;

/**
 * Another order of a visit that has begun: what somebody at the chair wants next comes next, and
 * the rest is sequenced again, under the same hard rules and with the same injections. What is over
 * stays where it was. The course with the visit so is read a second time before it is shown.
 */
public final class OrderAtTheChair {
  private final Course course;
  private final Chart chart;
  private final Practice practice;
  private final @Nullable Before before;

  /**
   * @param course the plan that holds
   * @param chart the mouth that it was made from
   * @param practice whose figures it was made with
   * @param before what was done and given before its first visit; null where the course began with
   *     it
   */
  public OrderAtTheChair(Course course, Chart chart, Practice practice, @Nullable Before before) {
    this.course = course;
    this.chart = chart;
    this.practice = practice;
    this.before = before;
  }

  /**
   * An entry of the plan's sequence that is over. An injection that was given again is over once
   * more.
   *
   * @param place in the sequence
   * @param done whether it was done, wholly or in part; what was not is not to come any more
   */
  public record Over(int place, boolean done) {}

  /** What came of it. */
  public sealed interface Outcome {

    /** It may not be done so. */
    sealed interface Not extends Outcome {}

    /**
     * It may be done so.
     *
     * @param visit in the new order
     * @param places for each entry of its sequence, which entry of the plan's sequence it is; -1
     *     for changes of insert, moves and waits, which are new
     * @param toBook minutes that would be booked for it in this order
     * @param notWaited injections that were given again once work had been done under those of
     *     their quadrant: their rows stay where they were given first, and nothing here waits for
     *     the second giving
     */
    record Ordered(Visit visit, List<Integer> places, int toBook, List<Entry> notWaited)
        implements Outcome {
      public Ordered {
        places = List.copyOf(places);
        notWaited = List.copyOf(notWaited);
      }

      /** The steps of work, by their places in the plan, in the new order. */
      public List<Integer> steps() {
        return IntStream.range(0, places.size())
            .filter(i -> visit.sequence().get(i) instanceof Entry.Debride)
            .mapToObj(places::get)
            .toList();
      }
    }

    /**
     * It would break rules.
     *
     * @param broken the hard rules
     */
    record Refused(List<HardRule> broken) implements Not {
      public Refused {
        broken = List.copyOf(broken);
      }
    }

    /** It would take other injections than those that the visit gives. */
    record OtherInjections() implements Not {}

    /**
     * Work is left that would not be numb.
     *
     * @param entries injections and gel that were not done and do not come any more
     */
    record NotNumbed(List<Entry> entries) implements Not {
      public NotNumbed {
        entries = List.copyOf(entries);
      }
    }

    /** It could not be worked out. */
    record NotKnown(Cause cause) implements Not {}
  }

  /** Why another order could not be worked out. */
  public enum Cause {
    /** The practice as it is cannot do the work of this mouth. */
    UNWORKABLE,
    /** The mouth has more steps than can be put in order. */
    TOO_MANY_STEPS,
    /** An agent was given that the practice does not know. */
    AGENT_UNKNOWN,
    /** The plan has steps that do not follow from this mouth and practice. */
    OTHER_STEPS,
    /** The plan with it did not stand when it was read a second time. */
    AUDIT
  }

  /**
   * Puts a visit into another order.
   *
   * @param number of the visit
   * @param ended what of its sequence is over, in the order in which it was
   * @param wanted places of steps that are not over, which come next, in this order; all that are
   *     left, or some
   */
  public Outcome order(int number, List<Over> ended, List<Integer> wanted) {
    int at =
        IntStream.range(0, course.visits().size())
            .filter(i -> at(i) == number)
            .findFirst()
            .orElseThrow();
    List<Entry> missing = Numbed.notGiven(course.visits().get(at), ended, practice);
    if (!missing.isEmpty()) {
      return new Outcome.NotNumbed(missing);
    }
    Optional<Commitments> standing = standing();
    if (standing.isEmpty()) {
      return new Outcome.NotKnown(Cause.AGENT_UNKNOWN);
    }
    try {
      Left left = left();
      return left.holding().planned().size() > StepSet.CAPACITY
          ? new Outcome.NotKnown(Cause.TOO_MANY_STEPS)
          : ordered(left, staging(left, standing.get()), at, ended, wanted);
    } catch (UnworkableException unworkable) {
      return new Outcome.NotKnown(Cause.UNWORKABLE);
    }
  }

  private Outcome ordered(
      Left left, StagingCase staging, int at, List<Over> ended, List<Integer> wanted) {
    Visit planned = course.visits().get(at);
    Places places = new Places(planned.sequence(), left.holding().planned());
    Given given = Given.of(planned, ended, practice);
    List<Integer> over = ended.stream().map(Over::place).toList();
    int[] order = places.order(over, wanted);
    CaseEvaluator evaluator = new CaseEvaluator(staging);
    List<VisitTimeline> layouts = new ArrayList<>();
    for (int i = 0; i < course.visits().size(); i++) {
      Visit visit = course.visits().get(i);
      int[] same = new Places(visit.sequence(), places.work()).order(List.of(), List.of());
      if (same.length < visit.steps().size()) {
        return new Outcome.NotKnown(Cause.OTHER_STEPS);
      }
      layouts.add(
          i == at
              ? new BegunVisit(evaluator.visit(i + 1), given.last())
                  .laidOut(order, given.last().over() + wanted.size())
              : evaluator.visit(i + 1).layout(same));
    }
    List<HardRule> broken = broken(layouts.get(at));
    if (broken.isEmpty() && given.partly()) {
      // What was not given again lasts from when it was given, and not from when the rest was.
      int[] found = layouts.get(at).order();
      broken =
          broken(
              new BegunVisit(evaluator.visit(at + 1), given.first()).laidOut(found, found.length));
    }
    return broken.isEmpty()
        ? audited(left, staging, layouts, at, places, given)
        : new Outcome.Refused(broken);
  }

  /** Laid out, read a second time. */
  private Outcome audited(
      Left left,
      StagingCase staging,
      List<VisitTimeline> layouts,
      int at,
      Places places,
      Given given) {
    Course laidOut =
        CoursePlanner.course(
            left.wished(),
            staging.practice(),
            left.work(),
            left.holding(),
            Stager.given(staging, layouts));
    List<Visit> visits = new ArrayList<>();
    for (int i = 0; i < laidOut.visits().size(); i++) {
      visits.add(laidOut.visits().get(i).withNumber(at(i)));
    }
    Course again = laidOut.withVisits(visits).withWishes(course.wishes());
    Visit planned = course.visits().get(at);
    Visit visit = visits.get(at);
    if (!sorted(visit).equals(sorted(planned))) {
      return new Outcome.OtherInjections();
    }
    boolean sound =
        (before == null
                ? Audit.audit(again, chart, practice)
                : Audit.audit(again, before, chart, practice))
            .isEmpty();
    return sound
        ? new Outcome.Ordered(
            planned.withSequence(visit.sequence()),
            places.of(visit.sequence()),
            visit.bookedMinutes(),
            given.notWaited())
        : new Outcome.NotKnown(Cause.AUDIT);
  }

  /** What the course had to do when it began, wishes as they were kept. */
  private record Left(Chart wished, Patient patient, WorkList work, DeferredWork holding) {}

  private Left left() throws UnworkableException {
    Chart wished =
        chart.withPatient(
            chart.patient().withWishes(course.wishes().stream().map(WishOutcome::asKept).toList()));
    DoneWork done = earlier().work();
    WorkList work =
        WorkPlanner.plan(wished, practice, NamedAreas.of(wished, List.of(course)), done);
    Patient all = wished.patient();
    Quadrant start = all.startWith();
    Patient patient = start == null || !done.startedIn(start) ? all : all.withStartWith(null);
    return new Left(
        wished, patient, work, DeferredWork.of(work.steps(), practice, wished, patient));
  }

  private StagingCase staging(Left left, Commitments standing) {
    return new StagingCase(
        left.patient(),
        course.grossFirst() ? Remedies.passesApart(practice) : practice,
        left.holding().planned(),
        Burden.each(left.work().areas(), left.wished(), practice.minutes()),
        course.visits().size(),
        course.grossFirst(),
        standing);
  }

  private Before earlier() {
    return before == null ? Before.NOTHING : before;
  }

  private int at(int place) {
    return course.visits().get(place).number();
  }

  /** Empty where something was given that the practice does not know. */
  private Optional<Commitments> standing() {
    Before earlier = earlier();
    boolean known =
        earlier.given().stream().allMatch(given -> practice.agents().containsKey(given.agent()));
    return known
        ? Optional.of(
            new Commitments(
                List.of(),
                earlier.given().stream()
                    .map(
                        given ->
                            new Doses.Amount(
                                Objects.requireNonNull(practice.agents().get(given.agent())),
                                given.ml()))
                    .toList(),
                earlier.gelCartridges(),
                earlier.setsOpened(),
                Collections.emptySortedMap(),
                !earlier.visits().isEmpty()))
        : Optional.empty();
  }

  private static List<HardRule> broken(VisitTimeline visit) {
    List<HardRule> broken = new ArrayList<>();
    if (visit.overrunSeconds() > 0) {
      broken.add(HardRule.LENGTH);
    }
    if (visit.outOfOrder() > 0) {
      broken.add(HardRule.ORDER_OF_PASSES_IN_A_VISIT);
    }
    if (visit.wornOffSeconds() > 0) {
      broken.add(HardRule.NUMBNESS_LASTS);
    }
    if (visit.openingBreaches() > 0) {
      broken.add(HardRule.OPENING);
    }
    return broken;
  }

  private static List<String> sorted(Visit visit) {
    return visit.injections().stream().map(Object::toString).sorted().toList();
  }

  /**
   * When the injections of a visit that has begun were given.
   *
   * @param first each when it was given first
   * @param last each when it was given last, unless work had been done under its quadrant's by then
   * @param partly whether of some quadrant's injections only some were given again
   * @param notWaited injections given again once work had been done under them
   */
  private record Given(Begun first, Begun last, boolean partly, List<Entry> notWaited) {

    static Given of(Visit visit, List<Over> ended, Practice practice) {
      List<Entry> sequence = visit.sequence();
      Map<Quadrant, Integer> first = new EnumMap<>(Quadrant.class);
      Map<Quadrant, Integer> last = new EnumMap<>(Quadrant.class);
      Map<Integer, Integer> times = new TreeMap<>();
      List<Entry.Debride> done = new ArrayList<>();
      List<Entry> notWaited = new ArrayList<>();
      int steps = 0;
      int lookedAt = -1;
      for (Over one : ended) {
        Entry entry = sequence.get(one.place());
        if (entry instanceof Entry.Debride step) {
          steps++;
          if (one.done() && step.needsNumb()) {
            done.add(step);
          }
        } else if (entry instanceof Entry.Inject inject) {
          Quadrant quadrant = inject.injection().quadrant();
          boolean again = times.merge(one.place(), 1, Integer::sum) > 1;
          first.putIfAbsent(quadrant, steps);
          last.putIfAbsent(quadrant, steps);
          if (again && worked(visit, quadrant, done, practice)) {
            notWaited.add(entry);
          } else if (again) {
            last.put(quadrant, steps);
          }
        } else if (entry instanceof Entry.Look) {
          lookedAt = steps;
        }
      }
      boolean partly =
          !first.equals(last)
              && times.entrySet().stream()
                  .anyMatch(
                      one ->
                          one.getValue() == 1
                              && sequence.get(one.getKey()) instanceof Entry.Inject inject
                              && !Objects.equals(
                                  first.get(inject.injection().quadrant()),
                                  last.get(inject.injection().quadrant())));
      return new Given(
          new Begun(first, steps, lookedAt), new Begun(last, steps, lookedAt), partly, notWaited);
    }
  }

  /** Whether work was done under an injection of a quadrant, which are given together. */
  private static boolean worked(
      Visit visit, Quadrant quadrant, List<Entry.Debride> done, Practice practice) {
    return visit.sequence().stream()
        .filter(
            entry ->
                entry instanceof Entry.Inject inject && inject.injection().quadrant() == quadrant)
        .anyMatch(entry -> done.stream().anyMatch(step -> Numbed.numbs(entry, step, practice)));
  }

  /** The places of a plan's sequence, and what they are. */
  private record Places(List<Entry> sequence, List<Step> work) {

    List<Integer> steps(List<Integer> places) {
      return places.stream().filter(place -> sequence.get(place) instanceof Entry.Debride).toList();
    }

    /** The case's steps: those that are over, those wanted next, and the others as planned. */
    int[] order(List<Integer> over, List<Integer> wanted) {
      List<Integer> all = new ArrayList<>(steps(over));
      all.addAll(wanted);
      steps(IntStream.range(0, sequence.size()).boxed().toList()).stream()
          .filter(place -> !all.contains(place))
          .forEach(all::add);
      List<Integer> open = new ArrayList<>(IntStream.range(0, work.size()).boxed().toList());
      List<Integer> order = new ArrayList<>();
      for (int place : all) {
        for (int index : open) {
          if (Restager.same((Entry.Debride) sequence.get(place), work.get(index))) {
            order.add(index);
            open.remove(Integer.valueOf(index));
            break;
          }
        }
      }
      return order.stream().mapToInt(Integer::intValue).toArray();
    }

    /** Where each entry of another order stands in this one; -1 where it does not. */
    List<Integer> of(List<Entry> other) {
      List<Integer> open = new ArrayList<>(IntStream.range(0, sequence.size()).boxed().toList());
      List<Integer> places = new ArrayList<>();
      for (Entry entry : other) {
        int found =
            open.stream().filter(place -> same(sequence.get(place), entry)).findFirst().orElse(-1);
        open.remove(Integer.valueOf(found));
        places.add(found);
      }
      return places;
    }

    private static boolean same(Entry one, Entry other) {
      return switch (one.kind()) {
        case WAIT, CHANGE_TIP, REPOSITION -> false;
        default -> timeless(one).equals(timeless(other));
      };
    }

    /** What it is, whenever it comes. */
    private static Object timeless(Entry entry) {
      if (entry instanceof Entry.Debride step) {
        return List.of(step.area(), step.pass(), step.aspect(), step.insert(), step.teeth());
      }
      if (entry instanceof Entry.Inject inject) {
        return inject.injection();
      }
      if (entry instanceof Entry.ApplyGel gel) {
        return List.of(gel.area(), gel.aspect(), gel.gel());
      }
      return entry instanceof Entry.Probe probe
          ? List.of(probe.areas(), probe.aspect())
          : entry.kind();
    }
  }
}
