package quadrille.plan.audit;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import quadrille.facts.chart.Area;
import quadrille.facts.chart.Chart;
import quadrille.facts.chart.Quadrant;
import quadrille.facts.chart.Side;
import quadrille.facts.chart.Tooth;
import quadrille.facts.practice.Agent;
import quadrille.facts.practice.Pass;
import quadrille.facts.practice.Practice;
import quadrille.facts.practice.RuleSet;
import quadrille.plan.course.Assumption;
import quadrille.plan.course.Awaited;
import quadrille.plan.course.Caution;
import quadrille.plan.course.Cost;
import quadrille.plan.course.Course;
import quadrille.plan.course.CourseTerm;
import quadrille.plan.course.Dose;
import quadrille.plan.course.Entry;
import quadrille.plan.course.GivenInjection;
import quadrille.plan.course.HeldBack;
import quadrille.plan.course.NumbSide;
import quadrille.plan.course.Reasons;
import quadrille.plan.course.Visit;
import quadrille.plan.work.Step;
import quadrille.plan.work.StepAspect;
import quadrille.plan.work.Target;
import quadrille.plan.work.UnworkableException;
import quadrille.plan.work.WorkList;
import quadrille.plan.work.WorkPlanner;

/**
 * Lays out the clock of a course from its injections, waits and steps in the order given, and fills
 * in what a course reports of itself. The term "worst areas late" is given by the test, worked out
 * by hand.
 */
final class PlanBuilder {

  private final Chart chart;
  private final Practice practice;
  private final WorkList work;
  private final List<VisitBuilder> visits = new ArrayList<>();
  private final List<HeldBack> heldBack = new ArrayList<>();
  private long worstLate;

  PlanBuilder(Chart chart, Practice practice) {
    this(chart, practice, Area.of(chart));
  }

  PlanBuilder(Chart chart, Practice practice, List<Area> areas) {
    this.chart = chart;
    this.practice = practice;
    try {
      this.work = WorkPlanner.plan(chart, practice, areas);
    } catch (UnworkableException e) {
      throw new IllegalStateException(e);
    }
  }

  Step find(String area, Pass pass, StepAspect aspect) {
    List<Step> found =
        work.steps().stream()
            .filter(
                s ->
                    s.area().ref().toString().equals(area)
                        && s.pass() == pass
                        && s.aspect() == aspect)
            .toList();
    if (found.size() != 1) {
      throw new IllegalArgumentException(area + ", " + pass + ", " + aspect + ": " + found);
    }
    return found.get(0);
  }

  VisitBuilder visit() {
    VisitBuilder visit = new VisitBuilder();
    visits.add(visit);
    return visit;
  }

  PlanBuilder worstLate(long seconds) {
    worstLate = seconds;
    return this;
  }

  PlanBuilder holdBack(String area, Pass pass, StepAspect aspect) {
    Step step = find(area, pass, aspect);
    heldBack.add(
        new HeldBack(step.area().ref(), pass, aspect, step.teeth(), new HeldBack.NoWeight()));
    return this;
  }

  Course course() {
    List<Visit> built = new ArrayList<>();
    for (VisitBuilder visit : visits) {
      built.add(visit.build(built.size() + 1));
    }
    int gap = practice.appointments().gapMinDays().asInt();
    return new Course(
        chart.caseName(),
        built,
        gap,
        14,
        6,
        12,
        cost(built),
        heldBack,
        List.of(new Assumption.AsWritten("the figures of this plan are made up")),
        List.of(new Caution.AsWritten("a clinician checks this plan")),
        false,
        practice.appointments().passesTogether(),
        false,
        List.of(),
        Reasons.NONE,
        gap,
        null);
  }

  private Cost cost(List<Visit> built) {
    long chair = built.stream().mapToInt(Visit::expectedSeconds).sum();
    int longest = built.stream().mapToInt(Visit::expectedSeconds).max().orElse(0);
    double mean = built.isEmpty() ? 0 : chair / (double) built.size();
    Map<Quadrant, Set<Integer>> fine = new LinkedHashMap<>();
    for (Visit visit : built) {
      for (Entry.Debride step : visit.steps()) {
        if (step.pass() == Pass.FINE) {
          fine.computeIfAbsent(step.teeth().get(0).quadrant(), q -> new LinkedHashSet<>())
              .add(visit.number());
        }
      }
    }
    long split = 600L * fine.values().stream().mapToInt(set -> set.size() - 1).sum();
    int injections = built.stream().mapToInt(visit -> visit.injections().size()).sum();
    int cartridges = built.stream().mapToInt(Visit::cartridges).sum();
    Map<CourseTerm, Long> terms = new LinkedHashMap<>();
    terms.put(CourseTerm.CHAIR_TIME, chair);
    terms.put(CourseTerm.BALANCE, Math.round(0.5 * (longest - mean)));
    terms.put(CourseTerm.SPLIT_QUADRANT, split);
    terms.put(CourseTerm.WORST_AREAS_LATE, worstLate);
    terms.put(CourseTerm.INJECTIONS, 60L * injections);
    terms.put(CourseTerm.CARTRIDGES, 20L * cartridges);
    long sum = terms.values().stream().mapToLong(Long::longValue).sum();
    return new Cost(sum, sum / 2, terms);
  }

  final class VisitBuilder {

    private final List<Entry> sequence = new ArrayList<>();
    private final List<GivenInjection> given = new ArrayList<>();
    private final Set<Side> sides = new LinkedHashSet<>();
    private double gel;
    private Step before;
    private boolean gelNext;
    private int now;

    VisitBuilder() {
      add(new Entry.SetUp(0, 600));
    }

    private void add(Entry entry) {
      sequence.add(entry);
      now = entry.endSecond();
    }

    VisitBuilder inject(String injection, Quadrant quadrant) {
      return inject(injection, quadrant, 0, "lidocaine-2-100");
    }

    VisitBuilder inject(String injection, Quadrant quadrant, int tooth, String agent) {
      double ml = practice.injections().get(injection).ml().value();
      GivenInjection one =
          new GivenInjection(
              injection, quadrant, tooth == 0 ? null : Tooth.ofIso(tooth), agent, ml);
      given.add(one);
      add(new Entry.Inject(now, (int) Math.round(60 * ml) + 30, one.ref()));
      return this;
    }

    private void pause(int seconds, Step step) {
      Set<Quadrant> numbed = new LinkedHashSet<>();
      for (GivenInjection one : given) {
        Shot shot =
            new Shot(
                one,
                practice.injections().get(one.injection()),
                practice.agents().get(one.agent()),
                new Entry.Inject(0, 1, one.ref()));
        if (step.needs().stream().anyMatch(shot::numbs)) {
          numbed.add(one.quadrant());
        }
      }
      add(new Entry.Wait(now, seconds, new Awaited.Numbness(List.copyOf(numbed))));
    }

    /** Pocket gel before the next step, with its 30 s of onset. */
    VisitBuilder gel() {
      gelNext = true;
      return this;
    }

    /** A wait of so many seconds after the tip change and repositioning of the step. */
    VisitBuilder step(String area, Pass pass, StepAspect aspect, int waiting) {
      Step step = find(area, pass, aspect);
      Step last = before;
      if (last != null && !last.insert().equals(step.insert())) {
        add(new Entry.ChangeTip(now, 60, step.insert().name()));
      }
      if (last != null && !last.area().equals(step.area())) {
        add(new Entry.Reposition(now, 30, step.area().ref(), aspect));
      } else if (last != null && last.aspect() != step.aspect()) {
        add(new Entry.Reposition(now, 15, step.area().ref(), aspect));
      }
      if (gelNext) {
        add(new Entry.ApplyGel(now, 60, "pocket gel", step.area().ref(), aspect));
        add(new Entry.Wait(now, 30, new Awaited.Gel("pocket gel")));
        gel += aspect == StepAspect.BOTH ? 1 : 0.5;
      }
      if (waiting > 0) {
        pause(waiting, step);
      }
      boolean numb = !step.needs().isEmpty() || step.gel();
      if (!step.needs().isEmpty() && !gelNext) {
        for (Target target : step.needs()) {
          sides.add(target.tooth().quadrant().side());
        }
      }
      add(
          new Entry.Debride(
              now,
              step.seconds(),
              step.area().ref(),
              aspect,
              pass,
              step.insert().name(),
              step.power(),
              numb,
              step.teeth()));
      gelNext = false;
      before = step;
      return this;
    }

    VisitBuilder step(String area, Pass pass, StepAspect aspect) {
      return step(area, pass, aspect, 0);
    }

    Visit build(int number) {
      if (!(sequence.get(sequence.size() - 1) instanceof Entry.Close)) {
        add(new Entry.Close(now, 300));
      }
      Map<String, Double> ml = new LinkedHashMap<>();
      given.forEach(one -> ml.merge(one.agent(), one.ml(), Double::sum));
      List<Dose> doses = new ArrayList<>();
      double epinephrine = 0;
      int cartridges = 0;
      Double weight = chart.patient().weightKg();
      for (Map.Entry<String, Double> one : ml.entrySet()) {
        Agent agent = practice.agents().get(one.getKey());
        double mg = one.getValue() * agent.mgPerMl().value();
        if (weight != null) {
          double most = agent.limits().get(RuleSet.CONSERVATIVE).maxMg(weight);
          doses.add(new Dose(agent.name(), mg, most, mg / most));
        }
        epinephrine += one.getValue() * agent.epinephrineMgPerMl().value();
        cartridges += (int) Math.ceil(one.getValue() / 1.8 - 1e-9);
      }
      if (gel > 0) {
        doses.add(new Dose("pocket gel", gel, 5, gel / 5));
      }
      List<Entry.Debride> steps =
          sequence.stream()
              .filter(Entry.Debride.class::isInstance)
              .map(Entry.Debride.class::cast)
              .toList();
      int working = steps.stream().mapToInt(Entry.Debride::seconds).sum();
      int unit = practice.appointments().unitMinutes().asInt();
      int bookedMinutes = unit;
      while (within(bookedMinutes, working) < 0.8) {
        bookedMinutes += unit;
      }
      Visit visit = bare(number, doses, epinephrine, cartridges, steps, bookedMinutes, working);
      return visit.withWatch(WatchCheck.due(visit, new Facts(chart, practice)));
    }

    private Visit bare(
        int number,
        List<Dose> doses,
        double epinephrine,
        int cartridges,
        List<Entry.Debride> steps,
        int bookedMinutes,
        int working) {
      return new Visit(
          number,
          sides.size() > 1
              ? NumbSide.BOTH
              : NumbSide.of(sides.isEmpty() ? null : sides.iterator().next()),
          bookedMinutes,
          1 - within(bookedMinutes, working),
          steps.stream().map(Entry.Debride::area).distinct().toList(),
          given,
          doses,
          epinephrine,
          cartridges,
          gel,
          steps.stream().anyMatch(step -> step.pass() == Pass.IMPLANT_CARE) ? 1 : 0,
          sequence,
          steps.stream().map(Entry.Debride::insert).distinct().toList(),
          List.of(),
          List.of());
    }

    /** The chance to end within the minutes, for a lognormal working part of sigma 0.2. */
    private double within(int minutes, int working) {
      double left = 60 * minutes - (now - working);
      return left <= 0 ? 0 : normal((Math.log(left / working) + 0.2 * 0.2 / 2) / 0.2);
    }
  }

  /**
   * The standard normal distribution by another way than the audit's: Abramowitz and Stegun,
   * Handbook of Mathematical Functions, 7.1.26, whose error is at most 1.5e-7.
   */
  private static double normal(double z) {
    double x = Math.abs(z) / Math.sqrt(2);
    double t = 1 / (1 + 0.3275911 * x);
    double poly =
        t
            * (0.254829592
                + t * (-0.284496736 + t * (1.421413741 + t * (-1.453152027 + t * 1.061405429))));
    double erf = 1 - poly * Math.exp(-x * x);
    return z >= 0 ? (1 + erf) / 2 : (1 - erf) / 2;
  }
}
