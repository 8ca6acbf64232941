package quadrille.plan.work;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.SortedSet;
import java.util.TreeSet;
import java.util.function.Predicate;
import quadrille.facts.chart.Area;
import quadrille.facts.chart.Aspect;
import quadrille.facts.chart.Chart;
import quadrille.facts.chart.ChartSigns;
import quadrille.facts.chart.Feature;
import quadrille.facts.chart.Quadrant;
import quadrille.facts.chart.Tooth;
import quadrille.facts.chart.ToothChart;
import quadrille.facts.chart.ToothStatus;
import quadrille.facts.chart.Wish;
import quadrille.facts.practice.Insert;
import quadrille.facts.practice.Pass;
import quadrille.facts.practice.PatientRules;
import quadrille.facts.practice.Power;
import quadrille.facts.practice.Practice;

/**
 * Turns a chart into steps. Gross and fine passes make one step for each area, aspect, insert and
 * power; finishing sweeps both aspects in one step; each implant has a step of its own.
 */
public final class WorkPlanner {

  private final Chart chart;
  private final Practice practice;
  private final DuePasses due;
  private final boolean byHand;
  private final InsertSelection selection;
  private final WorkMinutes minutes;
  private final NumbingNeeds numbing;
  private final DoneWork done;
  private final ChartFirst chartFirst;

  private WorkPlanner(Chart chart, Practice practice, DoneWork done) {
    this.done = done;
    this.chartFirst = ChartFirst.of(chart, practice);
    this.chart = chart;
    this.practice = practice;
    this.due = new DuePasses(practice);
    this.byHand = PatientRules.of(practice, chart.patient()).byHand();
    this.selection = new InsertSelection(practice, byHand, chart.patient());
    this.minutes = new WorkMinutes(practice.minutes());
    this.numbing = new NumbingNeeds(practice, chart.patient());
  }

  /**
   * The work of a chart.
   *
   * @param areas areas of the chart, cut or whole, that hold every natural tooth and implant once
   * @throws UnworkableException if no owned insert may be used for some of the work; it names all
   *     of it
   * @throws IllegalArgumentException if the areas leave out or repeat a tooth, or hold one that the
   *     chart does not
   */
  public static WorkList plan(Chart chart, Practice practice, List<Area> areas)
      throws UnworkableException {
    return plan(chart, practice, areas, DoneWork.NONE);
  }

  /**
   * The work of a chart that is left. Steps are made as for the whole work and then reduced: teeth
   * that are done leave them, and of what is part done the rest of the seconds stays. So a step of
   * which nothing was done is the same as before.
   *
   * @param areas areas of the chart, cut or whole, that hold every natural tooth and implant once
   * @throws UnworkableException if no owned insert may be used for some of the work; it names all
   *     of it
   * @throws IllegalArgumentException if the areas leave out or repeat a tooth, or hold one that the
   *     chart does not
   */
  public static WorkList plan(Chart chart, Practice practice, List<Area> areas, DoneWork done)
      throws UnworkableException {
    checkAreas(chart, areas);
    return new WorkPlanner(chart, practice, done).plan(areas);
  }

  private static void checkAreas(Chart chart, List<Area> areas) {
    List<Tooth> given = areas.stream().flatMap(area -> area.teeth().stream()).sorted().toList();
    List<Tooth> worked = chart.worked().stream().map(ToothChart::tooth).toList();
    if (!given.equals(worked)) {
      throw new IllegalArgumentException(
          "The areas (teeth "
              + given
              + ") must hold each natural tooth and implant of the chart once ("
              + worked
              + ").");
    }
  }

  private WorkList plan(List<Area> areas) throws UnworkableException {
    List<Step> steps = new ArrayList<>();
    List<Unworkable> unworkable = new ArrayList<>();
    Map<Quadrant, Double> gelCartridges = new EnumMap<>(Quadrant.class);
    for (Area area : gelFirst(areas)) {
      for (Pass pass : Pass.values()) {
        for (StepAspect aspect : aspects(pass)) {
          for (List<ToothChart> sweep : sweeps(area, pass)) {
            InsertSelection.Selection chosen = selection.choose(area, pass, aspect, sweep);
            unworkable.addAll(chosen.unworkable());
            for (Sweep one : merged(chosen.choices())) {
              Step whole = step(steps.size(), area, pass, aspect, one, gelCartridges);
              left(whole, one.teeth()).ifPresent(steps::add);
            }
          }
        }
      }
    }
    if (!unworkable.isEmpty()) {
      throw new UnworkableException(unworkable);
    }
    if (chartFirst.holds()) {
      areas.forEach(area -> chartAfterGross(area, steps));
    }
    return new WorkList(areas, inOrder(steps, areas), notes(areas, steps));
  }

  /** Where no injection is wished, areas have the first call on the gel that there is. */
  private List<Area> gelFirst(List<Area> areas) {
    List<Area> sorted = new ArrayList<>(areas);
    sorted.sort(Comparator.comparing(area -> !noInjectionWished(area)));
    return sorted;
  }

  private boolean noInjectionWished(Area area) {
    return chart.patient().wishes().stream()
        .anyMatch(wish -> wish.ask() instanceof Wish.NoInjection && wish.about(area.teeth()));
  }

  private static List<Step> inOrder(List<Step> steps, List<Area> areas) {
    List<Step> sorted = new ArrayList<>(steps);
    sorted.sort(Comparator.comparingInt(step -> areas.indexOf(step.area())));
    for (int i = 0; i < sorted.size(); i++) {
      sorted.set(i, sorted.get(i).withId(i));
    }
    return sorted;
  }

  /** Its gross pass lies in one visit, so that any step of it may bring the charting. */
  private void chartAfterGross(Area area, List<Step> steps) {
    for (int i = 0; i < steps.size(); i++) {
      Step step = steps.get(i);
      if (step.area().equals(area) && step.pass() == Pass.GROSS) {
        steps.set(
            i,
            step.withChartSeconds(
                ChartFirst.seconds(area.teeth(), List.of(Aspect.values()), chart, practice)));
        return;
      }
    }
  }

  /** Seconds of charting before a step: what was not probed is probed before its fine pass. */
  private int chartBefore(Pass pass, StepAspect aspect, List<Tooth> teeth) {
    return pass == Pass.FINE && !chartFirst.holds()
        ? ChartFirst.seconds(teeth, aspect.aspects(), chart, practice)
        : 0;
  }

  private static List<StepAspect> aspects(Pass pass) {
    return switch (pass) {
      case GROSS, FINE -> List.of(StepAspect.FACIAL, StepAspect.LINGUAL);
      case FINISHING, IMPLANT_CARE -> List.of(StepAspect.BOTH);
    };
  }

  /** The teeth of an area that are due a pass: together, but implants one by one. */
  private List<List<ToothChart>> sweeps(Area area, Pass pass) {
    List<ToothChart> teeth =
        charted(area).stream().filter(tooth -> due.of(tooth).contains(pass)).toList();
    if (teeth.isEmpty()) {
      return List.of();
    }
    return pass == Pass.IMPLANT_CARE ? teeth.stream().map(List::of).toList() : List.of(teeth);
  }

  private List<ToothChart> charted(Area area) {
    return area.teeth().stream().map(tooth -> chart.tooth(tooth).orElseThrow()).toList();
  }

  /** Teeth swept with one insert at one power, and the rows that put them there. */
  private record Sweep(Insert insert, Power power, List<ToothChart> teeth, List<String> rules) {}

  /** Choices of different rows with one insert and one power are one sweep. */
  private List<Sweep> merged(List<InsertSelection.Choice> choices) {
    List<Sweep> sweeps = new ArrayList<>();
    for (InsertSelection.Choice choice : choices) {
      Sweep same =
          sweeps.stream()
              .filter(
                  sweep ->
                      sweep.insert().equals(choice.insert())
                          && sweep.power() == choice.rule().power())
              .findFirst()
              .orElse(null);
      if (same == null) {
        same =
            new Sweep(choice.insert(), choice.rule().power(), new ArrayList<>(), new ArrayList<>());
        sweeps.add(same);
      }
      same.teeth().addAll(choice.teeth());
      same.rules().add(choice.rule().name());
    }
    List<String> order = List.copyOf(practice.inserts().keySet());
    sweeps.sort(
        Comparator.comparingInt((Sweep sweep) -> order.indexOf(sweep.insert().name()))
            .thenComparing(Sweep::power));
    return sweeps;
  }

  private Step step(
      int id,
      Area area,
      Pass pass,
      StepAspect aspect,
      Sweep sweep,
      Map<Quadrant, Double> gelCartridges) {
    double sum = 0;
    SortedSet<Target> needs = new TreeSet<>();
    boolean serves = false;
    for (ToothChart tooth : sweep.teeth()) {
      sum += methodFactor() * minutes.seconds(tooth, pass, aspect);
      needs.addAll(numbing.of(tooth, pass, aspect));
      serves |= !numbing.ofGel(tooth, pass, aspect).isEmpty();
    }
    int seconds = (int) Math.max(1, Math.round(sum));
    boolean gel =
        serves
            && numbing.gelServes(sweep.teeth(), pass, aspect, seconds)
            && spend(gelCartridges, area.quadrant(), aspect);
    if (gel) {
      needs.clear();
    }
    return new Step(
        id,
        area,
        pass,
        aspect,
        sweep.insert(),
        sweep.power(),
        seconds,
        sweep.teeth().stream().map(ToothChart::tooth).toList(),
        needs,
        gel,
        0,
        String.join("; ", sweep.rules()));
  }

  private double methodFactor() {
    return byHand ? practice.minutes().handFactor().value() : 1;
  }

  /** What is left of a step; empty where nothing is. */
  private Optional<Step> left(Step whole, List<ToothChart> swept) {
    double sum = 0;
    List<Tooth> teeth = new ArrayList<>();
    SortedSet<Target> needs = new TreeSet<>();
    for (ToothChart tooth : swept) {
      if (!done.anyLeft(tooth.tooth(), whole.pass(), whole.aspect())) {
        continue;
      }
      teeth.add(tooth.tooth());
      for (Aspect side : whole.aspect().aspects()) {
        sum +=
            methodFactor()
                * minutes.seconds(tooth, whole.pass(), side)
                * done.left(tooth.tooth(), whole.pass(), side);
      }
      if (!whole.gel()) {
        needs.addAll(numbing.of(tooth, whole.pass(), whole.aspect()));
      }
    }
    if (teeth.isEmpty()) {
      return Optional.empty();
    }
    return Optional.of(
        new Step(
            whole.id(),
            whole.area(),
            whole.pass(),
            whole.aspect(),
            whole.insert(),
            whole.power(),
            (int) Math.max(1, Math.round(sum)),
            teeth,
            needs,
            whole.gel(),
            chartBefore(whole.pass(), whole.aspect(), teeth),
            whole.rule()));
  }

  /**
   * Counts a step's gel against the quadrant's and the visit's limit as if the whole course were
   * one visit, so that no staging of the steps can break either.
   */
  private boolean spend(Map<Quadrant, Double> spent, Quadrant quadrant, StepAspect aspect) {
    double more = practice.gel().cartridgesAspect().value() * aspect.aspects().size();
    double inQuadrant = spent.getOrDefault(quadrant, 0.0) + more;
    double inMouth = spent.values().stream().mapToDouble(Double::doubleValue).sum() + more;
    if (inQuadrant > practice.gel().cartridgesQuadrant().value() + 1e-9
        || inMouth > practice.gel().cartridgesVisit().value() + 1e-9) {
      return false;
    }
    spent.put(quadrant, inQuadrant);
    return true;
  }

  private List<WorkNote> notes(List<Area> areas, List<Step> steps) {
    List<WorkNote> notes = new ArrayList<>();
    if (chartFirst.holds()) {
      notes.add(
          new WorkNote.ChartFirst(
              teeth(WorkPlanner::unprobed),
              chartFirst.unprobed(),
              chartFirst.sites(),
              chartFirst.mostShare(),
              chartFirst.waiting(steps, chart).stream().mapToInt(Step::seconds).sum()));
    } else {
      noteUnprobed(areas, true, notes);
      noteUnprobed(areas, false, notes);
    }
    for (WorkNote.Kind kind : WorkNote.Kind.values()) {
      List<Tooth> teeth =
          switch (kind) {
            case PLANNED_EXTRACTION ->
                teeth(tooth -> tooth.status() == ToothStatus.PLANNED_EXTRACTION);
            case UNLISTED -> chart.unlisted();
            case DEEP_IMPLANT ->
                ChartSigns.of(chart).implants().stream()
                    .map(ChartSigns.DeepImplant::tooth)
                    .toList();
            // Said in the visit that works there.
            case ASK_IF_SENSITIVE, PARTED_BRIDGE -> List.of();
            case NOTHING_DUE -> teeth(tooth -> tooth.worked() && due.of(tooth).isEmpty());
            case RESTORATION_MARGIN ->
                teeth(tooth -> tooth.worked() && tooth.has(Feature.RESTORATION_MARGIN));
            case DEMINERALISED ->
                teeth(tooth -> tooth.worked() && tooth.has(Feature.DEMINERALISED));
          };
      if (!teeth.isEmpty()) {
        notes.add(new WorkNote.Of(kind, teeth));
      }
    }
    return notes;
  }

  private static boolean unprobed(ToothChart tooth) {
    return tooth.worked() && !tooth.implant() && ChartFirst.unprobed(tooth);
  }

  /** One note for all areas alike: a page of the same sentence hides what it says. */
  private void noteUnprobed(List<Area> areas, boolean gross, List<WorkNote> notes) {
    List<Tooth> unprobed =
        areas.stream()
            .map(this::charted)
            .filter(
                teeth ->
                    teeth.stream().anyMatch(tooth -> due.of(tooth).contains(Pass.GROSS)) == gross)
            .flatMap(List::stream)
            .filter(ChartFirst::unprobed)
            .map(ToothChart::tooth)
            .sorted()
            .toList();
    if (!unprobed.isEmpty()) {
      notes.add(new WorkNote.Unprobed(unprobed, practice.minutes().provisionalDepthMm(), gross));
    }
  }

  private List<Tooth> teeth(Predicate<ToothChart> which) {
    return chart.teeth().stream().filter(which).map(ToothChart::tooth).toList();
  }
}
