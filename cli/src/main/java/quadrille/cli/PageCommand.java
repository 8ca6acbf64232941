package quadrille.cli;

import java.time.LocalDate;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.EnumSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.function.Function;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.jspecify.annotations.Nullable;
import picocli.CommandLine.ArgGroup;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;
import picocli.CommandLine.TypeConversionException;
import quadrille.cli.render.page.ComparePages;
import quadrille.cli.render.page.DiaryPages;
import quadrille.cli.render.page.Language;
import quadrille.cli.render.page.PageKind;
import quadrille.cli.render.page.PlanPages;
import quadrille.cli.render.page.ProgressKind;
import quadrille.cli.render.page.ProgressPages;
import quadrille.document.InvalidDocumentException;
import quadrille.facts.chart.Chart;
import quadrille.facts.practice.Practice;
import quadrille.plan.audit.Finding;
import quadrille.plan.course.Course;
import quadrille.plan.course.PlanReader;
import quadrille.plan.scenario.ComparisonReader;
import quadrille.treatment.record.CourseLog;
import quadrille.treatment.record.Event;
import quadrille.treatment.recording.LoggedPlan;

/** {@code quadrille page}: pages from what was saved. */
@Command(
    name = "page",
    customSynopsis = {
      "quadrille page PLAN --chart CHART [OPTION ...]",
      "       quadrille page PLAN --course COURSE [OPTION ...]",
      "       quadrille page COURSE [OPTION ...]",
      "       quadrille page COMPARISON --chart CHART [OPTION ...]",
      "       quadrille page DIARY [--week DATE] [OPTION ...]"
    },
    description = {
      "Draw the pages of a saved plan, course, comparison or diary.",
      "",
      "Nothing is sought: the sheet at the chair is the plan in the file, or in the",
      "course's log. It is audited first; what does not pass is not drawn. Of a",
      "comparison, which compare writes with --format json, each plan is.",
      "",
      "Of a course, the pages of the plan that holds now; --page progress draws how",
      "far it has come."
    })
final class PageCommand extends AnswerCommand {

  private static final Pattern SCHEMA =
      Pattern.compile("\"schema\"\\s*:\\s*\"quadrille/(plan|course|comparison|diary)/");

  private static final String PROGRESS = ProgressKind.PROGRESS.word();

  @Parameters(
      paramLabel = "FILE",
      description =
          "A plan, course, comparison or diary; - is standard input, for a plan or comparison.")
  private String file = "";

  @ArgGroup @Nullable private PlanAgainst against;

  @Mixin private PracticeOption practiceOption = new PracticeOption();

  @Option(
      names = "--week",
      order = 20,
      paramLabel = "DATE",
      description = "Of a diary: the week of this day; without it, that of the first visit.")
  @Nullable
  private LocalDate week;

  @Option(
      names = "--page",
      order = 85,
      split = ",",
      paramLabel = "PAGE",
      description =
          "Of a plan or a course: only chairside, desk or patient; may be repeated. Of a course"
              + " also progress.")
  private List<String> pages = List.of();

  @Option(
      names = "--language",
      order = 86,
      paramLabel = "CODE",
      description = "What the patient reads, in en (the default) or de.")
  @Nullable
  private Language language;

  PageCommand(Streams streams) {
    super(streams);
  }

  @Override
  boolean drawsPages() {
    return true;
  }

  @Override
  int run() throws InvalidDocumentException, StopException {
    if (format(Format.HTML) != Format.HTML) {
      throw StopException.usage("page: draws pages; --format html is its only format.");
    }
    List<@Nullable String> inputs = new ArrayList<>();
    inputs.add(file);
    inputs.add(practiceOption.name());
    if (against != null) {
      inputs.addAll(Arrays.asList(against.names()));
    }
    checkOutput(inputs.toArray(new @Nullable String[0]));
    String text = documents().read(file);
    Matcher schema = SCHEMA.matcher(text);
    if (!schema.find()) {
      throw StopException.file(
          Documents.name(file)
              + ": is no plan, course, comparison or diary of Quadrille; its schema says which.");
    }
    return switch (schema.group(1)) {
      case "plan" -> plan(text);
      case "course" -> course();
      case "comparison" -> comparison(text);
      default -> diary();
    };
  }

  private int plan(String text) throws InvalidDocumentException, StopException {
    refuse("a plan", "--week", week != null, PROGRESS, pages.contains(PROGRESS));
    PlanAgainst with = against;
    if (with == null) {
      throw StopException.usage("page: a plan needs --chart, or --course where it carries one on.");
    }
    PlanAgainst.Audited audited =
        with.audited(() -> PlanReader.read(Documents.name(file), text), practiceOption, this);
    check(audited.findings());
    return draw(audited.chart(), audited.practice(), audited.plan().course(), audited.booked());
  }

  private int course() throws InvalidDocumentException, StopException {
    refuse("a course", "--week", week != null, "--chart, --course and --practice", beside());
    CourseLog log = CourseFiles.read(file, this);
    if (pages.contains(PROGRESS)) {
      Set<ProgressKind> kinds = EnumSet.noneOf(ProgressKind.class);
      for (String page : pages) {
        kinds.add(named(Pages::progressKind, page));
      }
      answer(ProgressPages.of(log, kinds, language()));
      return Status.DONE;
    }
    LoggedPlan plan = LoggedPlan.of(log);
    check(plan.audit());
    return draw(plan.chart(), plan.practice(), plan.course(), plan.booked());
  }

  private int comparison(String text) throws InvalidDocumentException, StopException {
    refuse("a comparison", "--week", week != null, "--page and --language", pagesAsked());
    String chartFile = against == null ? null : against.chart();
    if (chartFile == null) {
      throw StopException.usage("page: a comparison needs --chart.");
    }
    Gathering gathering = new Gathering();
    Gathering.Read<Chart> chart = gathering.read(() -> ChartFile.readOnly(chartFile, documents()));
    Gathering.Read<Practice> practice = gathering.read(() -> practiceOption.read(documents()));
    gathering.check();
    ComparisonReader.Reading reading =
        ComparisonReader.read(Documents.name(file), text, chart.get(), practice.get());
    check(reading.findings());
    answer(ComparePages.of(chart.get(), practice.get(), reading.comparison()));
    return Status.DONE;
  }

  private int diary() throws InvalidDocumentException, StopException {
    refuse("a diary", "--page and --language", pagesAsked(), "--chart and --practice", beside());
    return DiaryCommand.show(file, week, DiaryPages::of, this);
  }

  private int draw(
      Chart chart, Practice practice, Course course, Map<Integer, Event.Appointment> booked)
      throws StopException {
    Set<PageKind> kinds = EnumSet.noneOf(PageKind.class);
    for (String page : pages) {
      kinds.add(named(Pages::kind, page));
    }
    answer(
        PlanPages.of(
            chart,
            practice,
            course,
            booked,
            kinds.isEmpty() ? EnumSet.allOf(PageKind.class) : kinds,
            language()));
    return Status.DONE;
  }

  private static <T> T named(Function<String, T> kind, String page) throws StopException {
    try {
      return kind.apply(page);
    } catch (TypeConversionException unknown) {
      throw StopException.usage("--page: " + unknown.getMessage() + ".");
    }
  }

  private boolean beside() {
    return against != null || practiceOption.name() != null;
  }

  private boolean pagesAsked() {
    return !pages.isEmpty() || language != null;
  }

  private Language language() {
    return language == null ? Language.english() : language;
  }

  private static void refuse(
      String what, String one, boolean oneGiven, String other, boolean otherGiven)
      throws StopException {
    if (oneGiven || otherGiven) {
      throw StopException.usage((oneGiven ? one : other) + ": is not for " + what + ".");
    }
  }

  /** What was found is told, and nothing is drawn. */
  private void check(List<Finding> findings) throws StopException {
    if (!findings.isEmpty()) {
      findings.forEach(finding -> message(finding.line()));
      throw StopException.refused(
          Documents.name(file) + ": does not pass its audit, so no page is drawn.");
    }
  }
}
