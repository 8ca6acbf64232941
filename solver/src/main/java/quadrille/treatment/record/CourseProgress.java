package quadrille.treatment.record;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.OptionalInt;
import java.util.TreeMap;
import java.util.TreeSet;
import org.jspecify.annotations.Nullable;
import quadrille.facts.chart.AreaRef;
import quadrille.facts.chart.Aspect;
import quadrille.facts.chart.Tooth;
import quadrille.facts.practice.Pass;
import quadrille.plan.course.Course;
import quadrille.plan.course.Entry;
import quadrille.plan.course.Visit;
import quadrille.plan.work.DoneWork;

/**
 * How far a course has come: each visit, those that took place and those to come, with its planned
 * areas and how much of them is done; and what was left over and has no visit.
 *
 * @param state where the course stands
 * @param visits by number
 * @param leftOver work of visits that took place, not finished and in no visit to come; planning
 *     again finds it a place
 * @param doneSeconds of the planned working time, what has been done
 * @param leftSeconds of the planned working time, what is left, left over work included
 */
public record CourseProgress(
    CourseState state,
    List<OfVisit> visits,
    List<LeftOver> leftOver,
    double doneSeconds,
    double leftSeconds) {

  /** A step that no plan of the log knows, in seconds: only weighs it against the others. */
  private static final int UNKNOWN_STEP = 60;

  public CourseProgress {
    visits = List.copyOf(visits);
    leftOver = List.copyOf(leftOver);
  }

  /**
   * One visit.
   *
   * @param planned as planned when it was recorded, or as it is planned now; null where the plan
   *     had none of this number
   * @param recorded what it did; null where it is to come
   * @param promised what was booked for it last; null where nothing was
   * @param areas the planned ones in the order of the plan, then those worked on early
   */
  public record OfVisit(
      int number,
      @Nullable Visit planned,
      CourseLog.@Nullable Recorded recorded,
      Event.@Nullable Appointment promised,
      List<OfArea> areas) {

    public OfVisit {
      areas = List.copyOf(areas);
    }

    /** The areas that have come so far, in order. */
    public List<OfArea> areas(Extent extent) {
      return areas.stream().filter(area -> area.extent() == extent).toList();
    }
  }

  /**
   * One area of a visit.
   *
   * @param planned whether the plan had it in this visit; otherwise it was worked on early
   * @param passes in the order of the plan
   */
  public record OfArea(AreaRef area, boolean planned, List<OfPass> passes) {

    public OfArea {
      passes = List.copyOf(passes);
    }

    /** How far all its passes have come together. */
    public Extent extent() {
      if (passes.stream().allMatch(pass -> pass.extent() == Extent.DONE)) {
        return Extent.DONE;
      }
      return passes.stream().allMatch(pass -> pass.extent() == Extent.NOT_DONE)
          ? Extent.NOT_DONE
          : Extent.PART_DONE;
    }

    /** The share that is done, weighed by planned time, 0 to 1. */
    public double share() {
      double all = passes.stream().mapToDouble(OfPass::seconds).sum();
      return all == 0
          ? 0
          : passes.stream().mapToDouble(pass -> pass.share() * pass.seconds()).sum() / all;
    }
  }

  /**
   * One pass of an area.
   *
   * @param share that is done, weighed by planned time, 0 to 1
   * @param seconds planned
   */
  public record OfPass(Pass pass, Extent extent, double share, double seconds) {}

  /**
   * A pass of an area that has no visit.
   *
   * @param visit that left it over
   * @param teeth of which something is left
   * @param seconds planned for what is left of it
   */
  public record LeftOver(int visit, AreaRef area, Pass pass, List<Tooth> teeth, double seconds) {}

  /** The share of the planned working time that has been done; 0 where nothing was planned. */
  public double share() {
    double all = doneSeconds + leftSeconds;
    return all == 0 ? 0 : doneSeconds / all;
  }

  /**
   * The visit that made up what another had left of an area, the last one where several did; empty
   * where nothing was left, or something still is.
   */
  public OptionalInt madeUp(int visit, AreaRef area) {
    List<StepDone> open =
        state.recorded().stream()
            .filter(one -> one.done().visit() == visit)
            .flatMap(one -> one.done().steps().stream())
            .filter(step -> step.area().equals(area) && !step.whole())
            .toList();
    boolean left =
        open.stream()
            .anyMatch(
                step ->
                    step.teeth().stream()
                        .anyMatch(
                            tooth -> state.done().anyLeft(tooth, step.pass(), step.aspect())));
    return left
        ? OptionalInt.empty()
        : state.recorded().stream()
            .map(CourseLog.Recorded::done)
            .filter(one -> one.visit() != visit)
            .filter(
                one ->
                    one.steps().stream()
                        .anyMatch(
                            step -> step.share() > 0 && open.stream().anyMatch(step::sharesWith)))
            .mapToInt(VisitDone::visit)
            .reduce((first, second) -> second);
  }

  /** Reads how far a course has come. */
  public static CourseProgress of(CourseLog log) {
    return new Reading(log).progress();
  }

  private static final class Reading {
    private final CourseState state;
    private final List<Course> plans = new ArrayList<>();
    private final Map<Integer, Event.Appointment> promised = new TreeMap<>();

    /** Number of the last entry that planned: what was recorded before it, it took into account. */
    private int lastPlan = 1;

    Reading(CourseLog log) {
      this.state = CourseState.of(log);
      for (LogEntry entry : log.entries()) {
        if (entry.event() instanceof Event.Planned planned) {
          plans.add(0, planned.course());
        } else if (entry.event() instanceof Event.Replanned replanned) {
          plans.add(0, replanned.course());
          lastPlan = entry.number();
        } else if (entry.event() instanceof Event.Booked booked) {
          booked.visits().forEach(visit -> promised.put(visit.visit(), visit));
        }
      }
    }

    CourseProgress progress() {
      TreeMap<Integer, OfVisit> visits = new TreeMap<>();
      double done = 0;
      double left = 0;
      DoneWork since = DoneWork.NONE;
      List<LeftOver> leftOver = new ArrayList<>();
      for (CourseLog.Recorded one : state.recorded()) {
        VisitDone record = one.done();
        visits.put(record.visit(), tookPlace(one));
        for (StepDone step : record.steps()) {
          done += step.share() * seconds(one.planned(), step);
          if (one.entry() > lastPlan) {
            since = CourseState.plus(since, step);
          }
        }
      }
      for (CourseLog.Recorded one : state.recorded()) {
        if (one.entry() > lastPlan) {
          leftOver.addAll(leftOver(one));
        }
      }
      for (Visit visit : state.toCome()) {
        OfVisit toCome = toCome(visit, since);
        visits.put(visit.number(), toCome);
        for (OfArea area : toCome.areas()) {
          for (OfPass pass : area.passes()) {
            left += (1 - pass.share()) * pass.seconds();
          }
        }
      }
      left += leftOver.stream().mapToDouble(LeftOver::seconds).sum();
      return new CourseProgress(state, List.copyOf(visits.values()), leftOver, done, left);
    }

    private OfVisit tookPlace(CourseLog.Recorded one) {
      Areas areas = new Areas();
      for (StepDone step : one.done().steps()) {
        areas.add(step.area(), step.pass(), step.share(), seconds(one.planned(), step));
      }
      int number = one.done().visit();
      return new OfVisit(
          number, one.planned(), one, promised.get(number), areas.inOrder(one.planned()));
    }

    private OfVisit toCome(Visit visit, DoneWork since) {
      Areas areas = new Areas();
      for (Entry.Debride step : visit.steps()) {
        double left = 0;
        for (Tooth tooth : step.teeth()) {
          for (Aspect aspect : step.aspect().aspects()) {
            left += since.left(tooth, step.pass(), aspect);
          }
        }
        double parts = (double) step.teeth().size() * step.aspect().aspects().size();
        areas.add(step.area(), step.pass(), 1 - left / parts, step.seconds());
      }
      return new OfVisit(
          visit.number(), visit, null, promised.get(visit.number()), areas.inOrder(visit));
    }

    private List<LeftOver> leftOver(CourseLog.Recorded one) {
      List<LeftOver> left = new ArrayList<>();
      for (StepDone step : one.done().steps()) {
        List<Tooth> teeth =
            step.teeth().stream()
                .filter(tooth -> state.done().anyLeft(tooth, step.pass(), step.aspect()))
                .filter(tooth -> !planned(tooth, step))
                .toList();
        if (!teeth.isEmpty()) {
          double all = (1 - step.share()) * seconds(one.planned(), step);
          add(
              left,
              new LeftOver(
                  one.done().visit(),
                  step.area(),
                  step.pass(),
                  teeth,
                  all * teeth.size() / step.teeth().size()));
        }
      }
      return left;
    }

    /** Both aspects of a pass are left over together. */
    private static void add(List<LeftOver> left, LeftOver more) {
      for (int i = 0; i < left.size(); i++) {
        LeftOver old = left.get(i);
        if (old.area().equals(more.area()) && old.pass() == more.pass()) {
          TreeSet<Tooth> teeth = new TreeSet<>(old.teeth());
          teeth.addAll(more.teeth());
          left.set(
              i,
              new LeftOver(
                  old.visit(),
                  old.area(),
                  old.pass(),
                  List.copyOf(teeth),
                  old.seconds() + more.seconds()));
          return;
        }
      }
      left.add(more);
    }

    /** Whether a visit to come has the rest of a step at this tooth. */
    private boolean planned(Tooth tooth, StepDone step) {
      return state.toCome().stream()
          .flatMap(visit -> visit.steps().stream())
          .anyMatch(
              other ->
                  other.pass() == step.pass()
                      && other.teeth().contains(tooth)
                      && other.aspect().aspects().stream()
                          .anyMatch(step.aspect().aspects()::contains));
    }

    /** What the plan gave a step: its own visit's, or, for work done early, any plan's. */
    private double seconds(@Nullable Visit own, StepDone done) {
      if (own != null) {
        for (Entry.Debride step : own.steps()) {
          if (same(step, done)) {
            return step.seconds();
          }
        }
      }
      for (Course plan : plans) {
        for (Visit visit : plan.visits()) {
          for (Entry.Debride step : visit.steps()) {
            if (same(step, done)) {
              return step.seconds();
            }
          }
        }
      }
      return UNKNOWN_STEP;
    }

    private static boolean same(Entry.Debride step, StepDone done) {
      return step.area().equals(done.area())
          && step.pass() == done.pass()
          && step.aspect() == done.aspect()
          && step.teeth().stream().sorted().toList().equals(done.teeth());
    }
  }

  /** Sums steps up by area and pass. */
  private static final class Areas {

    private static final class Sum {
      private double seconds;
      private double done;
      private boolean all = true;
      private boolean any;
    }

    private final Map<AreaRef, Map<Pass, Sum>> areas = new LinkedHashMap<>();

    void add(AreaRef area, Pass pass, double share, double seconds) {
      Sum sum =
          areas
              .computeIfAbsent(area, name -> new LinkedHashMap<>())
              .computeIfAbsent(pass, name -> new Sum());
      sum.seconds += seconds;
      sum.done += share * seconds;
      sum.all &= share >= 1;
      sum.any |= share > 0;
    }

    List<OfArea> inOrder(@Nullable Visit planned) {
      List<AreaRef> names = new ArrayList<>();
      if (planned != null) {
        planned.areas().stream().filter(areas::containsKey).forEach(names::add);
      }
      int own = names.size();
      areas.keySet().stream().filter(name -> !names.contains(name)).forEach(names::add);
      List<OfArea> ordered = new ArrayList<>();
      for (int i = 0; i < names.size(); i++) {
        List<OfPass> passes = new ArrayList<>();
        areas
            .getOrDefault(names.get(i), Map.of())
            .forEach(
                (pass, sum) ->
                    passes.add(
                        new OfPass(
                            pass,
                            sum.all ? Extent.DONE : sum.any ? Extent.PART_DONE : Extent.NOT_DONE,
                            sum.all ? 1 : sum.seconds == 0 ? 0 : sum.done / sum.seconds,
                            sum.seconds)));
        ordered.add(new OfArea(names.get(i), planned == null || i < own, passes));
      }
      return ordered;
    }
  }
}
