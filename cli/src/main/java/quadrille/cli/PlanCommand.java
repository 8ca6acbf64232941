package quadrille.cli;

import java.io.IOException;
import java.io.InputStream;
import java.nio.file.Path;
import java.util.EnumSet;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Objects;
import java.util.Set;
import org.jspecify.annotations.Nullable;
import picocli.CommandLine.ArgGroup;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;
import quadrille.cli.ManyCharts.End;
import quadrille.cli.render.ChangesText;
import quadrille.cli.render.ExplainText;
import quadrille.cli.render.MindWords;
import quadrille.cli.render.NoPlanJson;
import quadrille.cli.render.NoPlanText;
import quadrille.cli.render.PlanFileWords;
import quadrille.cli.render.PlanText;
import quadrille.cli.render.Words;
import quadrille.cli.render.page.Language;
import quadrille.cli.render.page.PageKind;
import quadrille.cli.render.page.PlanPages;
import quadrille.document.InvalidDocumentException;
import quadrille.facts.chart.Chart;
import quadrille.facts.practice.Practice;
import quadrille.plan.course.Course;
import quadrille.plan.course.PlanFile;
import quadrille.plan.course.PlanWriter;
import quadrille.plan.planning.CoursePlanner;
import quadrille.plan.planning.PlanOutcome;
import quadrille.plan.planning.PlanOutcome.NoPlan;
import quadrille.plan.planning.PlanOutcome.Planned;
import quadrille.plan.planning.VisitRange;
import quadrille.plan.work.UnworkableException;
import quadrille.treatment.record.CourseState;
import quadrille.treatment.record.Event;
import quadrille.treatment.restaging.Restaged;

/** {@code quadrille plan}: the staged course of a chart. */
@Command(
    name = "plan",
    customSynopsis = {
      "quadrille plan CHART [OPTION ...]",
      "       quadrille plan --course COURSE [OPTION ...]"
    },
    description = {
      "Stage a charted mouth over visits.",
      "",
      "Prints the course at a glance, then each visit by the clock: injections,",
      "steps, inserts, doses, cautions. Every plan is audited before it is shown.",
      "It is a proposal for a licensed clinician.",
      "",
      "With --course, what a course under way has left, around what is booked.",
      "",
      "With -o, the file gets JSON, ready for audit, unless --format text is given.",
      "Where no plan keeps every rule, status 1 and what would help.",
      "",
      "With --format html, pages to look at and print, for three readers:",
      "chairside, desk, patient.",
      "",
      "Ctrl-C, like a deadline, ends the search and keeps the best plan so far,",
      "audited, which then says so; a second Ctrl-C ends at once.",
      "",
      "With --many, one line of JSON a chart, in order; status 3 if any chart is",
      "invalid, else 1 if any has no plan, else 0 (70 before all of these if the",
      "program itself failed on one). No chart stops the others."
    })
final class PlanCommand extends BaseCommand {

  @ArgGroup(multiplicity = "1")
  private Source of = new Source();

  @Mixin private PracticeOption practiceOption = new PracticeOption();

  @Option(
      names = "--visits",
      order = 10,
      paramLabel = "N|A-B",
      description = "Exactly so many visits, or the best number from A to B (without it, 1-6).")
  private VisitRange visits = VisitRange.USUAL;

  @Mixin private SearchOptions search = new SearchOptions();

  @Option(
      names = "--gross-first",
      order = 12,
      description =
          "The gross pass of the whole mouth before any fine pass; areas are then begun in one"
              + " visit and finished in another.")
  private boolean grossFirst;

  @Mixin private WishOption wishes = new WishOption();

  @Option(
      names = "--explain",
      order = 11,
      description = "Also show what each term costs and why work went where it did.")
  private boolean explain;

  @Option(
      names = "--page",
      order = 85,
      split = ",",
      paramLabel = "PAGE",
      description = "With --format html: only chairside, desk or patient; may be repeated.")
  private List<PageKind> pages = List.of();

  @Option(
      names = "--language",
      order = 86,
      paramLabel = "CODE",
      description = "With --format html: what the patient reads, in en (the default) or de.")
  @Nullable
  private Language language;

  @Mixin private OutputOption output = new OutputOption();

  PlanCommand(Streams streams) {
    super(streams);
  }

  @Override
  OutputOption output() {
    return output;
  }

  @Override
  boolean drawsPages() {
    return true;
  }

  @Override
  int run() throws InvalidDocumentException, StopException {
    if ((!pages.isEmpty() || language != null) && !html()) {
      throw StopException.usage("--page and --language: go with --format html.");
    }
    search.deadline().check();
    if (of.restaging != null) {
      return runOn(of.restaging);
    }
    if (of.many != null) {
      return runMany(of.many);
    }
    String file = Objects.requireNonNull(of.chartFile);
    output.check(file, practiceOption.name());
    Gathering gathering = new Gathering();
    Gathering.Read<Chart> chart = gathering.read(() -> ChartFile.read(file, documents()));
    Gathering.Read<Practice> practice = gathering.read(() -> practiceOption.read(documents()));
    gathering.check();

    Chart wished = wishes.added(chart.get(), practice.get());
    PlanOutcome outcome = plan(wished, practice.get());
    return outcome instanceof Planned planned
        ? show(wished, practice.get(), planned)
        : refuse(wished, practice.get(), (NoPlan) outcome);
  }

  private int runOn(Restaging restaging) throws InvalidDocumentException, StopException {
    if (explain || grossFirst || wishes.given() || !visits.equals(VisitRange.USUAL)) {
      throw StopException.usage(
          "--explain, --gross-first, --visits and --wish: are for a course that begins.");
    }
    output.check(restaging.file(), practiceOption.name());
    Restaging.Again again =
        restaging.stage(
            practiceOption.name() == null ? null : practiceOption.read(documents()), search, this);
    Restaged restaged = again.restaged();
    tellWhereCutShort(restaged.course());
    String changes =
        ChangesText.of(
            again.ways(), again.taken(), again.practice(), streams().styled() && !output.toFile());
    if (json() || html()) {
      output.write(
          documents(),
          json()
              ? PlanWriter.write(
                  PlanFile.of(restaged.course(), restaged.changes()),
                  restaged.chart().numbering(),
                  PlanFileWords.of(again.practice()))
              : html(
                  restaged.chart(),
                  again.practice(),
                  restaged.course(),
                  CourseState.of(again.log()).booked()));
      message(changes);
    } else {
      output.write(
          documents(),
          changes
              + "\n"
              + PlanText.of(
                  restaged.chart(),
                  again.practice(),
                  restaged.course(),
                  false,
                  streams().styled()));
    }
    restaging.adopt(again, this);
    return Status.DONE;
  }

  private int runMany(String source) throws InvalidDocumentException, StopException {
    if (output.toFile() || explain || format(Format.JSON) != Format.JSON) {
      throw StopException.usage(
          "--many: writes lines of JSON to standard output; -o, --explain and other formats are"
              + " for one chart.");
    }
    if (grossFirst || wishes.given()) {
      throw StopException.usage("--gross-first and --wish: are for one chart.");
    }
    if (search.deadline().seconds() != null) {
      throw StopException.usage("--deadline: is for one chart; --many seeks each to its end.");
    }
    Practice practice = practiceOption.read(documents());
    Path folder = Documents.folder(source);
    Map<End, Integer> ends =
        folder != null
            ? solve(practice, new ChartFolder(folder, documents()))
            : solveLines(practice, source);
    int charts = ends.values().stream().mapToInt(Integer::intValue).sum();
    message(
        String.format(
            Locale.ROOT,
            "%d %s: %d planned, %d without a plan, %d invalid, %d failed.",
            charts,
            charts == 1 ? "chart" : "charts",
            ends.getOrDefault(End.PLANNED, 0),
            ends.getOrDefault(End.NO_PLAN, 0),
            ends.getOrDefault(End.INVALID, 0),
            ends.getOrDefault(End.FAILED, 0)));
    if (ends.containsKey(End.FAILED)) {
      return Status.FAULT;
    }
    if (ends.containsKey(End.INVALID)) {
      return Status.FILE;
    }
    return ends.containsKey(End.NO_PLAN) ? Status.REFUSED : Status.DONE;
  }

  private Map<End, Integer> solveLines(Practice practice, String source) throws StopException {
    String name = Documents.name(source);
    try (InputStream in = documents().open(source)) {
      return solve(practice, new ChartLines(name, in, streams().files().mostBytes()));
    } catch (IOException e) {
      throw StopException.file(name + ": cannot be closed: " + e.getMessage());
    }
  }

  private Map<End, Integer> solve(Practice practice, ChartSource charts) throws StopException {
    return new ManyCharts(
            practice, visits, search.effort(), Runtime.getRuntime().availableProcessors())
        .run(
            charts,
            new ManyCharts.Sink() {
              @Override
              public void line(String text) throws StopException {
                answer(text + "\n");
              }

              @Override
              public void doubt(String sentence) {
                message(sentence);
              }
            });
  }

  private PlanOutcome plan(Chart chart, Practice practice) throws StopException {
    int threads = Runtime.getRuntime().availableProcessors();
    try (Seeking seeking = new Seeking(streams(), search.deadline())) {
      CoursePlanner planner =
          new CoursePlanner(search.effort(), threads, seeking.stop(), seeking.progress());
      return grossFirst
          ? planner.planOnly(chart, practice, visits, true)
          : planner.plan(chart, practice, visits);
    } catch (UnworkableException unworkable) {
      throw StopException.refused(Unworkables.message(unworkable, chart));
    }
  }

  private int show(Chart chart, Practice practice, Planned planned) throws StopException {
    Course course = planned.course();
    boolean styled = streams().styled() && !output.toFile();
    tellWhereCutShort(course);
    String why = explain ? ExplainText.of(chart, course, planned.explanation(), styled) : "";
    if (json()) {
      output.write(
          documents(), PlanWriter.write(course, chart.numbering(), PlanFileWords.of(practice)));
      message(why);
    } else if (html()) {
      output.write(documents(), html(chart, practice, course, Map.of()));
      message(why);
    } else {
      String plan = PlanText.of(chart, practice, course, explain, styled);
      output.write(documents(), explain ? plan + "\n" + why : plan);
    }
    if (output.toFile()) {
      int number = course.visits().size();
      message(
          String.format(
              Locale.ROOT,
              "Wrote %s: %d %s, %d min booked.",
              output.name(),
              number,
              number == 1 ? "visit" : "visits",
              course.bookedMinutes()));
    }
    return Status.DONE;
  }

  private void tellWhereCutShort(Course course) {
    if (course.cutShort()) {
      message(Words.capital(MindWords.CUT_SHORT) + ".");
    }
  }

  private String html(
      Chart chart, Practice practice, Course course, Map<Integer, Event.Appointment> booked) {
    Set<PageKind> kinds = pages.isEmpty() ? EnumSet.allOf(PageKind.class) : EnumSet.copyOf(pages);
    return PlanPages.of(
        chart, practice, course, booked, kinds, language == null ? Language.english() : language);
  }

  private boolean html() {
    return format(Format.TEXT) == Format.HTML;
  }

  /** Says why there is no plan; a file that could be taken for one is not written. */
  private int refuse(Chart chart, Practice practice, NoPlan none) throws StopException {
    if (json() && !output.toFile()) {
      answer(NoPlanJson.of(chart, practice, none));
    }
    message(NoPlanText.of(practice, none));
    return Status.REFUSED;
  }

  /** A plan file is JSON unless text is asked for; standard output is for a person. */
  private boolean json() {
    return format(output.toFile() ? Format.JSON : Format.TEXT) == Format.JSON;
  }

  /** What is planned: a chart, many charts, or what a course under way has left. */
  private static final class Source {

    @Parameters(
        paramLabel = "CHART",
        arity = "0..1",
        description = "A chart as JSON, YAML, CSV or tooth lines; - is standard input.")
    @Nullable
    private String chartFile;

    @Option(
        names = "--many",
        order = 5,
        paramLabel = "SOURCE",
        description =
            "In place of CHART: the charts of a folder, or of a file with a JSON chart on each"
                + " line; - is standard input.")
    @Nullable
    private String many;

    @ArgGroup(exclusive = false)
    @Nullable
    private Restaging restaging;
  }
}
