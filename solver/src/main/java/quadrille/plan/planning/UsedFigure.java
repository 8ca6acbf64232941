package quadrille.plan.planning;

import java.util.ArrayList;
import java.util.EnumSet;
import java.util.List;
import java.util.Locale;
import java.util.Objects;
import java.util.Set;
import java.util.SortedSet;
import java.util.TreeSet;
import quadrille.facts.chart.Aspect;
import quadrille.facts.chart.Chart;
import quadrille.facts.chart.Deposit;
import quadrille.facts.chart.Site;
import quadrille.facts.chart.Tooth;
import quadrille.facts.chart.ToothChart;
import quadrille.facts.practice.Figure;
import quadrille.facts.practice.Minutes;
import quadrille.facts.practice.Numbing;
import quadrille.facts.practice.Pass;
import quadrille.facts.practice.PassRules;
import quadrille.facts.practice.Practice;
import quadrille.plan.work.Step;
import quadrille.plan.work.StepAspect;
import quadrille.plan.work.WorkList;

/**
 * A figure of the practice that some working minutes or numbing needs of a mouth rest on.
 *
 * @param what what it says, with its value and unit
 * @param source how it is known
 */
public record UsedFigure(String what, String source) {

  /** The figures that enter the work of a mouth; those that do not touch it are left out. */
  static List<UsedFigure> of(Chart chart, Practice practice, WorkList work) {
    return new Collector(chart, practice, work).collect();
  }

  private static final class Collector {
    private final Chart chart;
    private final Practice practice;
    private final WorkList work;
    private final List<UsedFigure> used = new ArrayList<>();

    Collector(Chart chart, Practice practice, WorkList work) {
      this.chart = chart;
      this.practice = practice;
      this.work = work;
    }

    List<UsedFigure> collect() {
      Set<Pass> passes = EnumSet.noneOf(Pass.class);
      work.steps().forEach(step -> passes.add(step.pass()));
      PassRules rules = practice.passes();
      if (!passes.isEmpty()) {
        used.add(new UsedFigure("which teeth get which pass", rules.source()));
      }
      if (passes.contains(Pass.GROSS)) {
        gross();
      }
      if (passes.contains(Pass.FINE)) {
        fine();
      }
      Minutes minutes = practice.minutes();
      if (passes.contains(Pass.FINISHING)) {
        add("finishing pass from " + mm(rules.finishingDepthMm()), rules.finishingDepthMm());
        add(
            "finishing pass: " + seconds(minutes.finishingSeconds(), "a tooth"),
            minutes.finishingSeconds());
      }
      if (passes.contains(Pass.IMPLANT_CARE)) {
        add(
            "implant care: " + seconds(minutes.implantCareSeconds(), "an implant"),
            minutes.implantCareSeconds());
      }
      numbing();
      return List.copyOf(used);
    }

    private void gross() {
      Minutes minutes = practice.minutes();
      Set<Deposit> grades = EnumSet.noneOf(Deposit.class);
      toothCharts(Pass.GROSS).forEach(tooth -> grades.add(tooth.deposit()));
      for (Deposit grade : grades) {
        Figure figure = minutes.grossSeconds().get(grade);
        if (figure != null) {
          add("gross pass, deposit " + grade.word() + ": " + seconds(figure, "a tooth"), figure);
        }
      }
      byPosition("gross pass, crown factor", Pass.GROSS, false);
    }

    private void fine() {
      Minutes minutes = practice.minutes();
      Figure threshold = practice.passes().fineDepthMm();
      add("fine pass from " + mm(threshold), threshold);
      Figure provisional = minutes.provisionalDepthMm();
      SortedSet<Integer> depths = new TreeSet<>();
      boolean unprobed = false;
      for (Step step : work.steps()) {
        if (step.pass() == Pass.FINE) {
          for (Site site : sites(step)) {
            unprobed |= site.depthMm() == null;
            depths.add(site.depthMm() == null ? provisional.asInt() : site.depthMm());
          }
        }
      }
      if (unprobed) {
        add("a site not probed counts as " + mm(provisional), provisional);
      }
      List<Minutes.FineBand> bands = minutes.fineBands();
      for (int i = 0; i < bands.size(); i++) {
        int from = bands.get(i).fromMm();
        int below = i + 1 < bands.size() ? bands.get(i + 1).fromMm() : Integer.MAX_VALUE;
        if (!depths.subSet(from, below).isEmpty()) {
          add(
              "fine pass, site of "
                  + from
                  + (below == Integer.MAX_VALUE
                      ? " mm or more"
                      : (below - 1 == from ? " mm" : " to " + (below - 1) + " mm"))
                  + ": "
                  + number(bands.get(i).seconds().value())
                  + " s",
              bands.get(i).seconds());
        }
      }
      byPosition("fine pass, root surface", Pass.FINE, true);
      SortedSet<Integer> furcations = new TreeSet<>();
      toothCharts(Pass.FINE).forEach(tooth -> furcations.add(tooth.furcation()));
      for (int grade : furcations) {
        if (grade > 0 && grade < minutes.furcationFactor().size()) {
          Figure figure = minutes.furcationFactor().get(grade);
          add("fine pass, furcation " + grade + ": times " + number(figure.value()), figure);
        }
      }
    }

    /** One line for each source, with the positions from the midline that it gives. */
    private void byPosition(String what, Pass pass, boolean roots) {
      SortedSet<String> sources = new TreeSet<>();
      for (Tooth tooth : teeth(pass)) {
        sources.add(positional(tooth, roots).source());
      }
      for (String source : sources) {
        SortedSet<Integer> positions = new TreeSet<>();
        for (Tooth tooth : teeth(pass)) {
          if (positional(tooth, roots).source().equals(source)) {
            positions.add(tooth.position());
          }
        }
        used.add(
            new UsedFigure(
                what
                    + ", "
                    + (positions.size() == 1 ? "position " : "positions ")
                    + ranges(positions)
                    + " from the midline",
                source));
      }
    }

    /** Such as {@code 1 to 3, 6}. */
    private static String ranges(SortedSet<Integer> numbers) {
      List<String> ranges = new ArrayList<>();
      for (int from : numbers) {
        if (!numbers.contains(from - 1)) {
          int to = from;
          while (numbers.contains(to + 1)) {
            to++;
          }
          ranges.add(from == to ? Integer.toString(from) : from + " to " + to);
        }
      }
      return String.join(", ", ranges);
    }

    private Figure positional(Tooth tooth, boolean roots) {
      Minutes minutes = practice.minutes();
      List<Figure> figures =
          roots
              ? Objects.requireNonNull(
                  minutes.rootAreaMm2().get(tooth.quadrant().jaw()), "root areas of both jaws")
              : minutes.crownFactor();
      return figures.get(tooth.position() - 1);
    }

    private void numbing() {
      Numbing numbing = practice.numbing();
      boolean fine = false;
      boolean gross = false;
      boolean gel = false;
      for (Step step : work.steps()) {
        boolean needs = step.needsInjection() || step.gel();
        fine |= needs && step.pass() != Pass.GROSS;
        gross |= needs && step.pass() == Pass.GROSS;
        gel |= step.gel();
      }
      if (fine) {
        add("numb from " + mm(numbing.fineDepthMm()), numbing.fineDepthMm());
      }
      if (gross) {
        add(
            "gross pass numb from deposit "
                + numbing.grossFrom().word()
                + " and "
                + mm(numbing.grossDepthMm()),
            numbing.grossDepthMm());
      }
      if (gel) {
        add("gel up to " + mm(practice.gel().deepestMm()), practice.gel().deepestMm());
      }
    }

    private SortedSet<Tooth> teeth(Pass pass) {
      SortedSet<Tooth> teeth = new TreeSet<>();
      work.steps().stream()
          .filter(step -> step.pass() == pass)
          .forEach(step -> teeth.addAll(step.teeth()));
      return teeth;
    }

    private List<ToothChart> toothCharts(Pass pass) {
      return teeth(pass).stream().flatMap(tooth -> chart.tooth(tooth).stream()).toList();
    }

    private List<Site> sites(Step step) {
      return step.teeth().stream()
          .flatMap(tooth -> chart.tooth(tooth).stream())
          .flatMap(
              tooth ->
                  step.aspect() == StepAspect.BOTH
                      ? tooth.sites().stream()
                      : tooth
                          .sites(
                              step.aspect() == StepAspect.FACIAL ? Aspect.FACIAL : Aspect.LINGUAL)
                          .stream())
          .toList();
    }

    private void add(String what, Figure figure) {
      used.add(new UsedFigure(what, figure.source()));
    }

    private static String mm(Figure figure) {
      return number(figure.value()) + " mm";
    }

    private static String seconds(Figure figure, String each) {
      return number(figure.value()) + " s " + each;
    }

    private static String number(double value) {
      return String.format(Locale.ROOT, "%.2f", value).replaceAll("\\.?0+$", "");
    }
  }
}
