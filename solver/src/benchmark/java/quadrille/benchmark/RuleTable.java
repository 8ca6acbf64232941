package quadrille.benchmark;

import java.io.PrintStream;
import java.util.ArrayList;
import java.util.EnumMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Set;
import java.util.TreeSet;
import java.util.function.ToDoubleFunction;
import java.util.stream.Collectors;
import org.jspecify.annotations.Nullable;
import quadrille.plan.audit.Finding;
import quadrille.plan.audit.Rule;
import quadrille.plan.course.Course;
import quadrille.plan.course.Visit;
import quadrille.plan.planning.CoursePlanner;
import quadrille.plan.planning.GivenCourse;
import quadrille.plan.planning.PlanOutcome.Planned;
import quadrille.plan.planning.VisitRange;
import quadrille.plan.scenario.RuleOfThumb;
import quadrille.plan.staging.Effort;

/**
 * Rules of thumb beside plans of as many visits, under the same audit: case by case, then the means
 * where the rule of thumb keeps every hard rule, then which rules it breaks elsewhere.
 */
final class RuleTable {

  private RuleTable() {}

  /** What a course asks of patient and practice. */
  private record Figures(
      double chairMinutes,
      double longest,
      double tips,
      double injections,
      double cartridges,
      double likelyOver,
      double overruns) {

    static Figures of(Course course, double allowed) {
      return new Figures(
          course.chairSeconds() / 60.0,
          course.visits().stream().mapToInt(Visit::bookedMinutes).max().orElse(0),
          course.tipChanges(),
          course.injections(),
          course.cartridges(),
          course.visits().stream().filter(visit -> visit.overrunRisk() > allowed + 1e-9).count(),
          course.visits().stream().mapToDouble(Visit::overrunRisk).sum());
    }

    static Figures mean(List<Figures> some) {
      return new Figures(
          mean(some, Figures::chairMinutes),
          mean(some, Figures::longest),
          mean(some, Figures::tips),
          mean(some, Figures::injections),
          mean(some, Figures::cartridges),
          mean(some, Figures::likelyOver),
          mean(some, Figures::overruns));
    }

    private static double mean(List<Figures> some, ToDoubleFunction<Figures> figure) {
      return some.stream().mapToDouble(figure).average().orElse(Double.NaN);
    }

    List<Object> cells() {
      return List.of(chairMinutes, longest, tips, injections, cartridges, likelyOver, overruns);
    }
  }

  private static final List<String> FIGURES =
      List.of(
          "chair min",
          "longest min",
          "tip changes",
          "injections",
          "cartridges",
          "visits over the risk",
          "expected overruns");

  /** One rule of thumb over all cases. */
  private static final class Tally {
    private final List<Figures> thumb = new ArrayList<>();
    private final List<Figures> plans = new ArrayList<>();
    private final Map<Rule, Integer> broken = new EnumMap<>(Rule.class);
    private int better;
    private int equal;
    private int withoutPlan;
    private int illegal;
    private int rescued;
  }

  static void print(List<BenchmarkCase> cases, PrintStream out) throws Exception {
    head(out, List.of("case", "course", "visits", "breaks"));
    Map<RuleOfThumb, Tally> tallies = new EnumMap<>(RuleOfThumb.class);
    for (BenchmarkCase one : cases) {
      for (RuleOfThumb rule : RuleOfThumb.values()) {
        compare(one, rule, tallies.computeIfAbsent(rule, r -> new Tally()), out);
      }
    }
    out.println();
    head(out, List.of("courses", "cases"));
    tallies.forEach(
        (rule, tally) -> {
          means(out, name(rule), tally.thumb);
          means(out, "plans of as many visits", tally.plans);
        });
    out.println();
    tallies.forEach((rule, tally) -> say(out, rule, tally, cases.size()));
  }

  private static void compare(BenchmarkCase one, RuleOfThumb rule, Tally tally, PrintStream out)
      throws Exception {
    double allowed = 1 - one.practice().appointments().certainty().value();
    GivenCourse given = rule.course(one.chart(), one.practice()).orElseThrow();
    Set<Rule> breaks =
        given.findings().stream().map(Finding::rule).collect(Collectors.toCollection(TreeSet::new));
    Figures thumb = Figures.of(given.course(), allowed);
    int visits = given.course().visits().size();
    row(
        out,
        List.of(
            one.name(),
            name(rule),
            visits,
            breaks.isEmpty()
                ? "nothing"
                : breaks.stream().map(Rule::name).collect(Collectors.joining(" "))),
        thumb);
    if (!given.legal()) {
      tally.illegal++;
      breaks.forEach(found -> tally.broken.merge(found, 1, Integer::sum));
      tally.rescued += planned(one, VisitRange.USUAL) == null ? 0 : 1;
      return;
    }
    Course plan = planned(one, VisitRange.exactly(visits));
    if (plan == null) {
      tally.withoutPlan++;
      return;
    }
    Figures ours = Figures.of(plan, allowed);
    row(out, List.of(one.name(), "plan", visits, "nothing"), ours);
    tally.thumb.add(thumb);
    tally.plans.add(ours);
    tally.better += plan.chairSeconds() < given.course().chairSeconds() ? 1 : 0;
    tally.equal += plan.chairSeconds() == given.course().chairSeconds() ? 1 : 0;
  }

  private static void head(PrintStream out, List<String> first) {
    List<Object> head = new ArrayList<>(first);
    head.addAll(FIGURES);
    Benchmark.row(out, head.toArray());
    Benchmark.row(out, head.stream().map(cell -> "--:").toArray());
  }

  private static void row(PrintStream out, List<Object> first, Figures figures) {
    List<Object> cells = new ArrayList<>(first);
    cells.addAll(figures.cells());
    Benchmark.row(out, cells.toArray());
  }

  private static void means(PrintStream out, String who, List<Figures> some) {
    if (!some.isEmpty()) {
      row(out, List.of(who, some.size()), Figures.mean(some));
    }
  }

  private static void say(PrintStream out, RuleOfThumb rule, Tally tally, int cases) {
    String broken =
        tally.broken.entrySet().stream()
            .map(
                entry ->
                    "%s %s in %d"
                        .formatted(entry.getKey(), entry.getKey().words(), entry.getValue()))
            .collect(Collectors.joining(", "));
    out.printf(
        "- %s: breaks a hard rule in %d of %d cases%s; where it does, a plan of 1 to 6 visits"
            + " exists in %d. Legal in %d: the plan of as many visits has less chair time in %d,"
            + " the same in %d, more in %d, and there is none in %d.%n",
        name(rule),
        tally.illegal,
        cases,
        broken.isEmpty() ? "" : " (" + broken + ")",
        tally.rescued,
        cases - tally.illegal,
        tally.better,
        tally.equal,
        tally.plans.size() - tally.better - tally.equal,
        tally.withoutPlan);
  }

  private static @Nullable Course planned(BenchmarkCase one, VisitRange visits) throws Exception {
    return new CoursePlanner(Effort.NORMAL, 1).planOnly(one.chart(), one.practice(), visits, false)
            instanceof Planned planned
        ? planned.course()
        : null;
  }

  private static String name(RuleOfThumb rule) {
    return rule.name().toLowerCase(Locale.ROOT).replace('_', ' ');
  }
}
