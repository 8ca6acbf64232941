package quadrille.plan.scenario;

import java.util.ArrayList;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import org.jspecify.annotations.Nullable;
import quadrille.document.Faults;
import quadrille.document.Fields;
import quadrille.document.InvalidDocumentException;
import quadrille.document.JsonDocument;
import quadrille.document.Node;
import quadrille.facts.chart.Chart;
import quadrille.facts.practice.Practice;
import quadrille.plan.audit.Audit;
import quadrille.plan.audit.Finding;
import quadrille.plan.course.Course;
import quadrille.plan.course.HeldBack;
import quadrille.plan.course.OneVisitFewer;
import quadrille.plan.course.PlanFile;
import quadrille.plan.course.PlanReader;

/**
 * Reads a comparison that was saved with its plans. Nothing is sought anew: the figures and the
 * marks are worked out from the plans, each of which is audited under the conditions of its table.
 */
public final class ComparisonReader {

  /** The value of a saved comparison's {@code schema}. */
  public static final String SCHEMA = "quadrille/comparison/1";

  private static final int SENTENCE = 2000;
  private static final int MOST_VISITS = 100;

  private final Chart chart;
  private final Practice practice;
  private final List<Finding> findings = new ArrayList<>();
  private final List<Check> checks = new ArrayList<>();

  private ComparisonReader(Chart chart, Practice practice) {
    this.chart = chart;
    this.practice = practice;
  }

  /** A plan to be audited once the whole file is known to be well-formed. */
  private record Check(PlanFile plan, Chart chart, Practice practice) {}

  /**
   * What was read.
   *
   * @param findings what the audits of its plans found; empty where the comparison may be shown
   */
  public record Reading(Comparison comparison, List<Finding> findings) {
    public Reading {
      findings = List.copyOf(findings);
    }
  }

  /**
   * Reads a saved comparison.
   *
   * @param source the file's name, for faults
   * @param text JSON
   * @param chart the mouth that it compares the courses of
   * @param practice the practice as it was then
   * @throws InvalidDocumentException with every fault, where there is one
   */
  public static Reading read(String source, String text, Chart chart, Practice practice)
      throws InvalidDocumentException {
    Faults faults = new Faults();
    return new ComparisonReader(chart, practice)
        .read(JsonDocument.read(source, text, faults), faults);
  }

  private Reading read(Node document, Faults faults) throws InvalidDocumentException {
    Fields root = document.map();
    root.required("schema").word(List.of(SCHEMA), word -> word);
    Node caseName = root.required("case");
    if (!caseName.text().equals(chart.caseName()) && caseName.isText()) {
      caseName.fault("the chart's case, \"" + chart.caseName() + "\"");
    }
    List<Comparison.Group> groups = new ArrayList<>();
    for (Node node : root.required("groups").items()) {
      Fields group = node.map();
      WhatIf whatIf = conditions(group.required("conditions"));
      Practice changed = faults.none() ? whatIf.applyTo(practice) : practice;
      List<Choice> choices = new ArrayList<>();
      for (Node choice : group.required("choices").items()) {
        choices.add(choice(choice.map(), null, whatIf.applyTo(chart), changed, faults));
      }
      groups.add(new Comparison.Group(whatIf, choices));
    }
    List<Choice> rules = new ArrayList<>();
    for (Node node : root.required("rulesOfThumb").items()) {
      Fields rule = node.map();
      RuleOfThumb which =
          rule.required("ruleOfThumb").word(List.of(RuleOfThumb.values()), RuleOfThumb::word);
      rules.add(choice(rule, which, chart, practice, faults));
    }
    boolean cutShort = root.required("cutShort").truth();
    Optional<OneVisitFewer> fewer =
        root.optional("oneVisitFewer")
            .map(Node::map)
            .filter(fields -> fields.has("remedies"))
            .map(PlanReader::oneVisitFewer);
    faults.check();
    checks.forEach(one -> findings.addAll(Audit.audit(one.plan(), one.chart(), one.practice())));
    return new Reading(
        new Comparison(groups, rules, cutShort, waiting(groups), fewer.orElse(null)).marked(),
        findings);
  }

  private static List<HeldBack.Reason> waiting(List<Comparison.Group> groups) {
    Set<HeldBack.Reason> waiting = new LinkedHashSet<>();
    for (Comparison.Group group : groups) {
      for (Choice choice : group.choices()) {
        Course course = choice.course();
        if (course != null) {
          course.heldBack().stream().map(HeldBack::reason).forEach(waiting::add);
        }
      }
    }
    return List.copyOf(waiting);
  }

  private WhatIf conditions(Node node) {
    Fields fields = node.map();
    List<String> inserts = new ArrayList<>();
    fields.required("withoutInserts").items().forEach(insert -> inserts.add(insert.text()));
    WhatIf whatIf =
        new WhatIf(
            fields.optional("longestMinutes").map(one -> one.whole(1, 24 * 60)).orElse(null),
            inserts,
            fields.optional("agentFirst").map(Node::text).orElse(null),
            fields.optional("certainty").map(one -> one.number(0, 1)).orElse(null),
            fields.required("grossFirst").truth(),
            fields.required("oneDay").truth(),
            fields.optional("trayHolds").map(one -> one.whole(1, 100)).orElse(null),
            fields.optional("frontApart").map(Node::truth).orElse(false),
            fields.optional("needleAverse").map(Node::truth).orElse(false));
    whatIf.faults(practice).forEach(fault -> node.fault("these conditions", fault));
    return whatIf;
  }

  private Choice choice(
      Fields fields, @Nullable RuleOfThumb rule, Chart chart, Practice practice, Faults faults) {
    int visits = fields.required("visits").whole(0, MOST_VISITS);
    if (!fields.required("feasible").truth()) {
      List<Obstacle> obstacles = new ArrayList<>();
      for (Node obstacle : fields.required("obstacles").items(1, MOST_VISITS)) {
        obstacles.add(new Obstacle.AsWritten(obstacle.text(SENTENCE)));
      }
      return new Choice(rule, visits, null, null, obstacles, List.of(), false);
    }
    PlanFile plan = PlanReader.read(fields.required("plan"));
    Course course = plan.course();
    checks.add(new Check(plan, chart, practice));
    return new Choice(
        rule,
        course.visits().size(),
        CourseFigures.of(course),
        course,
        List.of(),
        faults.none() ? AcuteLoad.hints(course, chart, practice) : List.of(),
        false);
  }
}
