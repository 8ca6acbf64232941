package quadrille.cli.serve;

import static java.nio.charset.StandardCharsets.UTF_8;

import java.io.IOException;
import java.nio.file.FileAlreadyExistsException;
import java.nio.file.Path;
import java.time.Clock;
import java.time.OffsetDateTime;
import java.util.ArrayList;
import java.util.EnumSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.concurrent.ExecutionException;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import java.util.concurrent.Future;
import org.jspecify.annotations.Nullable;
import quadrille.cli.render.ClashWords;
import quadrille.cli.render.MindWords;
import quadrille.cli.render.Words;
import quadrille.cli.render.page.ComparePages;
import quadrille.cli.render.page.Language;
import quadrille.cli.render.page.PageKind;
import quadrille.cli.render.page.PlanPages;
import quadrille.cli.render.picture.MouthMap;
import quadrille.cli.render.picture.VisitColour;
import quadrille.cli.serve.PracticeFolder.Mouth;
import quadrille.document.Expected;
import quadrille.document.InvalidDocumentException;
import quadrille.facts.chart.Chart;
import quadrille.facts.chart.ChartWriter;
import quadrille.facts.practice.Appointments;
import quadrille.facts.practice.Practice;
import quadrille.facts.practice.PracticeWriter;
import quadrille.plan.course.Course;
import quadrille.plan.course.Entry;
import quadrille.plan.course.PlanFile;
import quadrille.plan.course.Visit;
import quadrille.plan.planning.CoursePlanner;
import quadrille.plan.planning.PlanOutcome;
import quadrille.plan.planning.PlanOutcome.NoPlan;
import quadrille.plan.planning.PlanOutcome.Planned;
import quadrille.plan.planning.Progress;
import quadrille.plan.planning.VisitRange;
import quadrille.plan.scenario.Comparer;
import quadrille.plan.scenario.WhatIf;
import quadrille.plan.staging.Effort;
import quadrille.plan.staging.SearchStop;
import quadrille.plan.work.UnworkableException;
import quadrille.treatment.recording.Recorder;

/** A mouth's course at one to six visits, side by side. */
final class CourseRoom implements AutoCloseable {

  /** What an {@link UnworkableException} is to whoever looks at courses. */
  static final String NO_INSERT = "The practice owns no insert that may do some of the work.";

  private static final int MOST_VISITS = 6;

  /** Mouths whose courses are kept at hand; the rest is sought again when it is asked for. */
  private static final int KEPT = 20;

  private final PracticeFolder folder;
  private final Clock clock;
  private final ExecutorService searches =
      Executors.newFixedThreadPool(
          Math.max(2, Runtime.getRuntime().availableProcessors()),
          task -> {
            Thread thread = new Thread(task, "course");
            thread.setDaemon(true);
            return thread;
          });
  private final Map<String, Sought> sought = new LinkedHashMap<>(16, 0.75f, true);

  CourseRoom(PracticeFolder folder, Clock clock) {
    this.folder = folder;
    this.clock = clock;
  }

  /** What is asked: a mouth, by a practice, under conditions. */
  private record Question(Chart chart, Practice practice, WhatIf whatIf, Effort effort) {

    /** Tells what was planned from any other mouth, practice or condition. */
    String code() {
      return String.valueOf(
          Expected.bytes(
                  (ChartWriter.json(chart)
                          + PracticeWriter.text(whatIf.applyTo(practice))
                          + whatIf
                          + effort)
                      .getBytes(UTF_8))
              .revision());
    }
  }

  /**
   * One search.
   *
   * @param whole whether also why the course is as it is, or what would help where there is none
   */
  private record Search(int visits, boolean whole) {}

  /** The searches for one question; a new one for the same mouth ends them. */
  private record Sought(
      Question question, SearchStop stop, Map<Search, Future<PlanOutcome>> found) {}

  Optional<Reply> answer(Request request, Mouth mouth)
      throws IOException, InvalidDocumentException {
    if (!mouth.chart()) {
      return Optional.empty();
    }
    boolean reading = request.reading();
    Question question = question(request, mouth);
    List<String> faults = question.whatIf().faults(question.practice());
    if (!faults.isEmpty()) {
      return Optional.of(Views.message(422, folder.demo(), "That cannot be planned", faults));
    }
    if (request.path().size() == 3 && reading) {
      return Optional.of(page(request, mouth, question));
    }
    if (request.path().size() > 5) {
      return Optional.empty();
    }
    if (request.part(3).equals("compare") && request.part(4).equals("print") && reading) {
      return Optional.of(compare(question));
    }
    int visits = number(request.part(3));
    if (visits == 0) {
      return Optional.empty();
    }
    return switch (request.method() + " " + request.part(4)) {
      case "GET " -> Optional.of(card(mouth, question, visits));
      case "GET help" -> Optional.of(help(mouth, question, visits));
      case "GET ring" ->
          course(mouth, question, new Search(visits, false))
              .map(
                  course ->
                      Reply.html(
                          Views.part("picture/mouthMap", MouthMap.of(course, question.chart()))));
      case "GET print" ->
          course(mouth, question, new Search(visits, true))
              .map(
                  course ->
                      Reply.html(
                          PlanPages.of(
                              question.chart(),
                              practice(question),
                              course,
                              EnumSet.allOf(PageKind.class),
                              Language.english())));
      case "POST accept" -> Optional.of(accept(request, mouth, question, visits));
      default -> Optional.empty();
    };
  }

  private static int number(String text) {
    return text.matches("[1-" + MOST_VISITS + "]") ? text.charAt(0) - '0' : 0;
  }

  private Question question(Request request, Mouth mouth)
      throws IOException, InvalidDocumentException {
    Map<String, String> query = request.query();
    @Nullable Integer longest =
        query.getOrDefault("longest", "").matches("[0-9]{1,4}")
            ? Integer.valueOf(query.get("longest"))
            : null;
    @Nullable Double certainty =
        query.getOrDefault("certainty", "").matches("[0-9]{1,2}")
            ? Double.valueOf(query.get("certainty")) / 100
            : null;
    Effort effort = Effort.NORMAL;
    for (Effort one : Effort.values()) {
      effort = one.word().equals(query.get("effort")) ? one : effort;
    }
    return new Question(
        folder.read(mouth),
        folder.practice(),
        new WhatIf(
            longest, List.of(), null, certainty, "yes".equals(query.get("gross-first")), false),
        effort);
  }

  private static Practice practice(Question question) {
    return question.whatIf().applyTo(question.practice());
  }

  private Reply page(Request request, Mouth mouth, Question question) {
    Appointments appointments = question.practice().appointments();
    List<String> before = new ArrayList<>();
    if (!question.chart().patient().history().taken()) {
      before.add("No medical history is charted: take it before anything is touched.");
    }
    if (question.chart().patient().weightKg() == null) {
      before.add("No weight is charted, so no injection can be planned.");
    }
    if (!question.chart().unlisted().isEmpty()) {
      before.add(
          "Not charted, and taken as missing: "
              + String.join(
                  " ",
                  question.chart().unlisted().stream()
                      .map(question.chart().numbering()::name)
                      .toList())
              + ".");
    }
    return Reply.html(
        Views.view(
            "course",
            new CoursePage(
                folder.demo(),
                "/mouth/" + mouth.id() + "/course",
                question.chart().caseName(),
                request.query().getOrDefault("longest", ""),
                request.query().getOrDefault("certainty", ""),
                Integer.toString(appointments.longestVisitMinutes().asInt()),
                Long.toString(Math.round(100 * appointments.certainty().value())),
                question.effort().word(),
                question.whatIf().grossFirst(),
                before)));
  }

  /** Begins the searches for a question where they have not begun; ends those of another. */
  private Future<PlanOutcome> search(Mouth mouth, Question question, Search search) {
    synchronized (sought) {
      Sought now = sought.get(mouth.id());
      if (now == null || !now.question().equals(question)) {
        if (now != null) {
          now.stop().ask();
        }
        now = new Sought(question, new SearchStop(), new LinkedHashMap<>());
        sought.put(mouth.id(), now);
        if (sought.size() > KEPT) {
          String eldest = sought.keySet().iterator().next();
          Sought old = sought.remove(eldest);
          if (old != null) {
            old.stop().ask();
          }
        }
      }
      SearchStop stop = now.stop();
      return now.found()
          .computeIfAbsent(search, one -> searches.submit(() -> plan(question, one, stop)));
    }
  }

  private static PlanOutcome plan(Question question, Search search, SearchStop stop)
      throws UnworkableException {
    CoursePlanner planner = new CoursePlanner(question.effort(), 1, stop, Progress.UNHEARD);
    VisitRange visits = VisitRange.exactly(search.visits());
    boolean grossFirst = question.whatIf().grossFirst();
    return search.whole() && !grossFirst
        ? planner.plan(question.chart(), practice(question), visits)
        : planner.planOnly(question.chart(), practice(question), visits, grossFirst);
  }

  private PlanOutcome outcome(Mouth mouth, Question question, Search search)
      throws UnworkableException {
    try {
      return search(mouth, question, search).get();
    } catch (InterruptedException ending) {
      Thread.currentThread().interrupt();
      throw new IllegalStateException("The program ends.", ending);
    } catch (ExecutionException failed) {
      if (failed.getCause() instanceof UnworkableException unworkable) {
        throw unworkable;
      }
      throw new IllegalStateException("A course could not be sought.", failed.getCause());
    }
  }

  private Optional<Course> course(Mouth mouth, Question question, Search search) {
    try {
      return outcome(mouth, question, search) instanceof Planned planned
          ? Optional.of(planned.course())
          : Optional.empty();
    } catch (UnworkableException lacksInsert) {
      return Optional.empty();
    }
  }

  private Reply card(Mouth mouth, Question question, int visits) {
    CourseCard card;
    int seconds = Integer.MAX_VALUE;
    try {
      PlanOutcome outcome = outcome(mouth, question, new Search(visits, false));
      if (outcome instanceof Planned planned) {
        card = card(planned.course(), question.chart(), visits);
        seconds = (int) planned.course().cost().seconds();
      } else {
        card = none(visits, ClashWords.of(((NoPlan) outcome).clashes()));
      }
    } catch (UnworkableException lacksInsert) {
      card = none(visits, List.of(NO_INSERT));
    }
    Map<String, Object> reply = new LinkedHashMap<>();
    reply.put("found", !card.lines().isEmpty());
    reply.put("seconds", seconds);
    reply.put("seen", question.code());
    reply.put("html", Views.view("card", card));
    return Reply.json(reply);
  }

  static CourseCard none(int visits, List<String> obstacles) {
    return new CourseCard(visits, 0, "", 0, "", 0, List.of(), List.of(), obstacles, List.of());
  }

  static CourseCard card(Course course, Chart chart, int visits) {
    double dose = course.visits().stream().mapToDouble(Visit::doseShare).max().orElse(0);
    return new CourseCard(
        visits,
        course.bookedMinutes(),
        Math.round(course.chairSeconds() / 60.0) + " min",
        course.injections(),
        dose == 0 ? "none" : Words.percent(dose),
        course.tipChanges(),
        MindWords.stopQuestions(course),
        course.visits().stream().map(visit -> line(visit, chart)).toList(),
        course.visits().isEmpty() ? List.of("Nothing is due.") : List.of(),
        MindWords.cautions(course.cautions(), chart.numbering()));
  }

  private static CourseCard.Line line(Visit visit, Chart chart) {
    return new CourseCard.Line(
        visit.number(),
        VisitColour.styleClass(visit.number()),
        visit.numbSide().word(),
        visit.bookedMinutes(),
        Words.risk(visit.overrunRisk()),
        String.join(", ", visit.areas().stream().map(area -> Words.area(area, chart)).toList()),
        visit.sequence().stream().map(CourseRoom::block).toList());
  }

  private static CourseCard.Block block(Entry entry) {
    String kind = (entry.kind() == Entry.Kind.APPLY_GEL ? Entry.Kind.INJECT : entry.kind()).word();
    return new CourseCard.Block(kind, minutes(entry.startSecond()), minutes(entry.seconds()));
  }

  private static String minutes(int seconds) {
    return String.format(Locale.ROOT, "%.2f", seconds / 60.0);
  }

  /** What would help where there is no course of so many visits, each tried by planning again. */
  private Reply help(Mouth mouth, Question question, int visits) {
    List<String> lines = List.of();
    try {
      if (outcome(mouth, question, new Search(visits, true)) instanceof NoPlan none) {
        lines = ClashWords.remedies(none.remedies());
      }
    } catch (UnworkableException lacksInsert) {
      // The card says so.
    }
    return Reply.json(
        Map.of(
            "lines",
            lines.isEmpty() ? List.of("No single change that was tried would help.") : lines));
  }

  /** All numbers of visits and the rules of thumb, beside the conditions asked for. */
  private Reply compare(Question question) {
    try {
      return Reply.html(
          ComparePages.of(
              question.chart(),
              question.practice(),
              new Comparer(question.effort(), 1)
                  .compare(
                      question.chart(),
                      question.practice(),
                      VisitRange.USUAL,
                      List.of(question.whatIf()))));
    } catch (UnworkableException lacksInsert) {
      return Views.message(409, folder.demo(), "That cannot be planned", List.of(NO_INSERT));
    }
  }

  /**
   * Begins the course's log with the plan, the chart and the practice that it was planned by; only
   * if they still are those of the course that was looked at.
   */
  private Reply accept(Request request, Mouth mouth, Question question, int visits)
      throws IOException {
    if (!question.code().equals(request.ifMatch())) {
      return Reply.json(
          412,
          Map.of(
              "text",
              "The chart or the practice file is another one by now. Nothing has been written;"
                  + " plan again."));
    }
    Optional<Course> course = course(mouth, question, new Search(visits, true));
    if (course.isEmpty() || course.get().cutShort()) {
      return Reply.json(409, Map.of("text", "There is no finished course of so many visits."));
    }
    String name = folder.courseName(question.chart().caseName());
    Path file = folder.root().resolve("courses").resolve(name);
    try {
      Recorder.Outcome outcome =
          new Recorder(file, folder.files())
              .begin(
                  OffsetDateTime.now(clock),
                  PlanFile.of(course.get()),
                  question.chart(),
                  practice(question));
      return outcome instanceof Recorder.Written
          ? Reply.json(
              Map.of(
                  "text",
                  "Accepted: the course begins with it, in courses/" + name + ".",
                  "log",
                  "/log/" + folder.id("courses/" + name)))
          : Reply.json(
              409, Map.of("text", "It does not pass its audit by the practice's own rules."));
    } catch (FileAlreadyExistsException there) {
      return Reply.json(
          409,
          Map.of("text", "A course of this case has begun already. Nothing has been written."));
    }
  }

  @Override
  public void close() {
    synchronized (sought) {
      sought.values().forEach(one -> one.stop().ask());
    }
    searches.shutdownNow();
  }
}
