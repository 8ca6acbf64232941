package quadrille.plan.planning;

import java.util.ArrayList;
import java.util.Collections;
import java.util.EnumSet;
import java.util.List;
import java.util.Objects;
import java.util.Set;
import java.util.SortedSet;
import java.util.TreeSet;
import java.util.function.DoubleFunction;
import org.jspecify.annotations.Nullable;
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
 * @param what what it says, with its value
 * @param source how it is known
 */
public record UsedFigure(What what, String source) {

  /** What a figure says. */
  public sealed interface What {

    /** Which teeth get which pass. */
    record WhichPass() implements What {}

    /** The least depth that asks for a pass. */
    record PassFrom(Pass pass, double mm) implements What {}

    /** Finishing of a tooth, or care of an implant. */
    record FlatTime(Pass pass, double seconds) implements What {}

    /** The gross pass of a tooth with a grade of deposit. */
    record GrossTime(Deposit deposit, double seconds) implements What {}

    /** What a site counts as that was not probed. */
    record UnprobedAs(double mm) implements What {}

    /**
     * The fine pass of a site of a band of depths.
     *
     * @param toMm the last depth, inclusive; null where the band has no end
     */
    record FineTime(int fromMm, @Nullable Integer toMm, double seconds) implements What {}

    /** What a furcation multiplies the fine pass by. */
    record FurcationFactor(int grade, double factor) implements What {}

    /**
     * Crowns for the gross pass, root surfaces for the fine.
     *
     * @param positions from the midline, 1 to 8
     */
    record ByPosition(Pass pass, SortedSet<Integer> positions) implements What {
      public ByPosition {
        positions = Collections.unmodifiableSortedSet(new TreeSet<>(positions));
      }
    }

    /** What work by hand multiplies all seconds by. */
    record HandFactor(double factor) implements What {}

    /** The least depth that must be numb. */
    record NumbFrom(double mm) implements What {}

    /** The least deposit and depth that must be numb for the gross pass. */
    record GrossNumbFrom(Deposit deposit, double mm) implements What {}

    /** The deepest site for which pocket gel will do. */
    record GelUpTo(double mm) implements What {}
  }

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
        used.add(new UsedFigure(new What.WhichPass(), rules.source()));
      }
      if (passes.contains(Pass.GROSS)) {
        gross();
      }
      if (passes.contains(Pass.FINE)) {
        fine();
      }
      Minutes minutes = practice.minutes();
      if (passes.contains(Pass.FINISHING)) {
        add(mm -> new What.PassFrom(Pass.FINISHING, mm), rules.finishingDepthMm());
        add(seconds -> new What.FlatTime(Pass.FINISHING, seconds), minutes.finishingSeconds());
      }
      if (passes.contains(Pass.IMPLANT_CARE)) {
        add(seconds -> new What.FlatTime(Pass.IMPLANT_CARE, seconds), minutes.implantCareSeconds());
      }
      if (work.steps().stream().anyMatch(step -> step.insert().hand())) {
        add(What.HandFactor::new, minutes.handFactor());
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
          add(seconds -> new What.GrossTime(grade, seconds), figure);
        }
      }
      byPosition(Pass.GROSS);
    }

    private void fine() {
      Minutes minutes = practice.minutes();
      Figure threshold = practice.passes().fineDepthMm();
      add(mm -> new What.PassFrom(Pass.FINE, mm), threshold);
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
        add(What.UnprobedAs::new, provisional);
      }
      List<Minutes.FineBand> bands = minutes.fineBands();
      for (int i = 0; i < bands.size(); i++) {
        int from = bands.get(i).fromMm();
        Integer to = i + 1 < bands.size() ? bands.get(i + 1).fromMm() - 1 : null;
        if (!depths.subSet(from, to == null ? Integer.MAX_VALUE : to + 1).isEmpty()) {
          add(seconds -> new What.FineTime(from, to, seconds), bands.get(i).seconds());
        }
      }
      byPosition(Pass.FINE);
      SortedSet<Integer> furcations = new TreeSet<>();
      toothCharts(Pass.FINE).forEach(tooth -> furcations.add(tooth.furcation()));
      for (int grade : furcations) {
        if (grade > 0 && grade < minutes.furcationFactor().size()) {
          Figure figure = minutes.furcationFactor().get(grade);
          add(factor -> new What.FurcationFactor(grade, factor), figure);
        }
      }
    }

    /** One line for each source, with the positions from the midline that it gives. */
    private void byPosition(Pass pass) {
      SortedSet<String> sources = new TreeSet<>();
      for (Tooth tooth : teeth(pass)) {
        sources.add(positional(tooth, pass).source());
      }
      for (String source : sources) {
        SortedSet<Integer> positions = new TreeSet<>();
        for (Tooth tooth : teeth(pass)) {
          if (positional(tooth, pass).source().equals(source)) {
            positions.add(tooth.position());
          }
        }
        used.add(new UsedFigure(new What.ByPosition(pass, positions), source));
      }
    }

    private Figure positional(Tooth tooth, Pass pass) {
      Minutes minutes = practice.minutes();
      List<Figure> figures =
          pass == Pass.FINE
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
        add(What.NumbFrom::new, numbing.fineDepthMm());
      }
      if (gross) {
        add(mm -> new What.GrossNumbFrom(numbing.grossFrom(), mm), numbing.grossDepthMm());
      }
      if (gel) {
        add(What.GelUpTo::new, practice.gel().deepestMm());
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

    private void add(DoubleFunction<What> what, Figure figure) {
      used.add(new UsedFigure(what.apply(figure.value()), figure.source()));
    }
  }
}
