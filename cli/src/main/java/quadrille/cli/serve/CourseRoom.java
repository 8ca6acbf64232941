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
import java.util.Objects;
import java.util.Optional;
import org.jspecify.annotations.Nullable;
import quadrille.cli.render.ClashWords;
import quadrille.cli.render.MindWords;
import quadrille.cli.render.WishWords;
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
import quadrille.facts.chart.AreaRef;
import quadrille.facts.chart.Chart;
import quadrille.facts.chart.ChartWriter;
import quadrille.facts.chart.Numbering;
import quadrille.facts.chart.Wish;
import quadrille.facts.chart.WishSentences;
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
import quadrille.plan.scenario.Comparison;
import quadrille.plan.scenario.WhatIf;
import quadrille.plan.staging.Effort;
import quadrille.plan.work.UnworkableException;
import quadrille.seeking.SearchStop;
import quadrille.treatment.recording.Recorder;

/** A mouth's course at one to six visits, side by side. */
final class CourseRoom implements AutoCloseable {

  /** What an {@link UnworkableException} is to whoever looks at courses. */
  static final String NO_INSERT = "The practice owns no insert that may do some of the work.";

  private static final String ENDED =
      "The search was ended early, and found none so far; there may be one.";

  private static final int MOST_VISITS = 6;

  private final PracticeFolder folder;
  private final Clock clock;
  private final CourseSearches searches = new CourseSearches();

  CourseRoom(PracticeFolder folder, Clock clock) {
    this.folder = folder;
    this.clock = clock;
  }

  /** What is asked: a mouth, by a practice, under conditions. */
  private record Question(Chart chart, Practice practice, WhatIf whatIf, Effort effort) {

    /** Tells what was planned from any other mouth, practice or condition. */
    String code(Chart wished) {
      return String.valueOf(
          Expected.bytes(
                  (ChartWriter.json(wished)
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
   * @param chart with what is wished of a course of so many visits
   * @param whole whether also why the course is as it is, or what would help where there is none
   */
  private record Search(int visits, Chart chart, boolean whole) {}

  /** A mouth asked about, with what is wished at the page. */
  private record Asked(Mouth mouth, Question question, MovedAreas moved) {

    Search search(int visits, boolean whole) {
      return new Search(visits, moved.wished(question.chart(), visits), whole);
    }

    Practice practice() {
      return question.whatIf().applyTo(question.practice());
    }
  }

  Optional<Reply> answer(Request request, Mouth mouth)
      throws IOException, InvalidDocumentException {
    if (!mouth.chart()) {
      return Optional.empty();
    }
    boolean reading = request.reading();
    Question question = question(request, mouth);
    List<String> faults = new ArrayList<>(question.whatIf().faults(question.practice()));
    MovedAreas moved =
        MovedAreas.of(request.query().getOrDefault("wishes", ""), question.chart(), faults);
    if (!faults.isEmpty()) {
      return Optional.of(Views.message(422, folder.demo(), "That cannot be planned", faults));
    }
    Asked asked = new Asked(mouth, question, moved);
    if (request.path().size() == 3 && reading) {
      return Optional.of(page(request, asked));
    }
    if (request.path().size() > 5) {
      return Optional.empty();
    }
    if (request.part(3).equals("compare") && request.part(4).equals("print") && reading) {
      return Optional.of(compare(asked));
    }
    int visits = number(request.part(3));
    if (visits == 0) {
      return Optional.empty();
    }
    return switch (request.method() + " " + request.part(4)) {
      case "GET " -> Optional.of(card(asked, visits));
      case "GET help" -> Optional.of(help(asked, visits));
      case "GET try" -> move(request, asked, visits);
      case "GET ring" ->
          course(asked, asked.search(visits, false))
              .map(
                  course ->
                      Reply.html(
                          Views.part("picture/mouthMap", MouthMap.of(course, question.chart()))));
      case "GET print" ->
          course(asked, asked.search(visits, true))
              .map(
                  course ->
                      Reply.html(
                          PlanPages.of(
                              moved.wished(question.chart(), visits),
                              asked.practice(),
                              course,
                              EnumSet.allOf(PageKind.class),
                              Language.english())));
      case "POST accept" -> Optional.of(accept(request, asked, visits));
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

  private Reply page(Request request, Asked asked) {
    Question question = asked.question();
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
                "/mouth/" + asked.mouth().id() + "/course",
                question.chart().caseName(),
                request.query().getOrDefault("longest", ""),
                request.query().getOrDefault("certainty", ""),
                Integer.toString(appointments.longestVisitMinutes().asInt()),
                Long.toString(Math.round(100 * appointments.certainty().value())),
                question.effort().word(),
                question.whatIf().grossFirst(),
                asked.moved().text(question.chart().numbering()),
                wishes(asked.moved(), question.chart().numbering()),
                WishWords.said(question.chart()),
                before)));
  }

  private static List<CoursePage.Wished> wishes(MovedAreas moved, Numbering numbering) {
    return moved.wishes().stream()
        .map(
            wish ->
                new CoursePage.Wished(
                    wish.words(numbering),
                    Objects.requireNonNull(((Wish.InVisit) wish.ask()).ofVisits())))
        .toList();
  }

  private static PlanOutcome plan(Question question, Search search, SearchStop stop)
      throws UnworkableException {
    CoursePlanner planner = new CoursePlanner(question.effort(), 1, stop, Progress.UNHEARD);
    VisitRange visits = VisitRange.exactly(search.visits());
    Practice practice = question.whatIf().applyTo(question.practice());
    boolean grossFirst = question.whatIf().grossFirst();
    return search.whole() && !grossFirst
        ? planner.plan(search.chart(), practice, visits)
        : planner.planOnly(search.chart(), practice, visits, grossFirst);
  }

  private PlanOutcome outcome(Asked asked, Search search, boolean trial)
      throws UnworkableException {
    Question question = asked.question();
    return searches.answer(
        asked.mouth().id(), question, search, trial, stop -> plan(question, search, stop));
  }

  private Optional<Course> course(Asked asked, Search search) {
    try {
      return outcome(asked, search, false) instanceof Planned planned
          ? Optional.of(planned.course())
          : Optional.empty();
    } catch (UnworkableException lacksInsert) {
      return Optional.empty();
    }
  }

  private Reply card(Asked asked, int visits) {
    CourseCard card;
    int seconds = Integer.MAX_VALUE;
    Chart chart = asked.question().chart();
    try {
      PlanOutcome outcome = outcome(asked, asked.search(visits, false), false);
      if (outcome instanceof Planned planned) {
        card = card(planned.course(), chart, visits);
        seconds = (int) planned.course().cost().seconds();
      } else {
        card = none(visits, against((NoPlan) outcome, asked.practice()));
      }
    } catch (UnworkableException lacksInsert) {
      card = none(visits, List.of(NO_INSERT));
    }
    Map<String, Object> reply = new LinkedHashMap<>();
    reply.put("found", !card.lines().isEmpty());
    reply.put("seconds", seconds);
    reply.put("seen", asked.question().code(asked.moved().wished(chart, visits)));
    reply.put("html", Views.view("card", card));
    return Reply.json(reply);
  }

  /**
   * What it would cost to move an area to a visit, or which rules stand against it: nothing is kept
   * until the wish is asked for.
   */
  private Optional<Reply> move(Request request, Asked asked, int visits) {
    Chart chart = asked.question().chart();
    Numbering numbering = chart.numbering();
    Optional<AreaRef> area = AreaRef.named(request.query().getOrDefault("area", ""), numbering);
    int to = number(request.query().getOrDefault("visit", ""));
    if (area.isEmpty() || to == 0 || to > visits) {
      return Optional.empty();
    }
    Wish.Region region = new Wish.Region(area.get().quadrant(), area.get());
    Wish wish = new Wish(true, new Wish.InVisit(List.of(region), to, visits));
    Asked there = new Asked(asked.mouth(), asked.question(), asked.moved().with(wish, visits));
    List<String> faults = new ArrayList<>();
    MovedAreas.of(there.moved().text(numbering), chart, faults);
    WishSentences.fault(there.search(visits, false).chart().patient().wishes(), numbering)
        .ifPresent(faults::add);
    boolean possible = false;
    List<String> lines = faults;
    try {
      if (faults.isEmpty()) {
        PlanOutcome now = outcome(asked, asked.search(visits, false), false);
        PlanOutcome then = outcome(there, there.search(visits, false), true);
        possible = then instanceof Planned;
        if (then instanceof Planned planned) {
          lines =
              WishWords.difference(
                  now instanceof Planned before ? before.course() : null, planned.course(), chart);
        } else {
          lines = ((NoPlan) then).cutShort() ? List.of(ENDED) : against(asked, wish, visits);
        }
      }
    } catch (UnworkableException lacksInsert) {
      lines = List.of(NO_INSERT);
    }
    return Optional.of(
        Reply.json(
            Reply.of(
                "possible",
                possible,
                "lines",
                lines,
                "wishes",
                there.moved().text(numbering),
                "words",
                wish.words(numbering))));
  }

  /**
   * Which rules stand against a wish, each told by planning without it: asked for as one that need
   * not be kept, beside those that are kept already.
   */
  private List<String> against(Asked asked, Wish wish, int visits) throws UnworkableException {
    Numbering numbering = asked.question().chart().numbering();
    Wish rather = new Wish(false, wish.ask());
    Chart chart = asked.moved().without(wish, visits).wished(asked.question().chart(), visits);
    List<Wish> wishes = new ArrayList<>(chart.patient().wishes());
    wishes.add(rather);
    Chart open = chart.withPatient(chart.patient().withWishes(wishes));
    PlanOutcome outcome = outcome(asked, new Search(visits, open, true), true);
    if (outcome instanceof NoPlan none) {
      return against(none, asked.practice());
    }
    return ((Planned) outcome)
        .course().wishes().stream()
            .filter(one -> one.wish().equals(rather) && one.against() != null)
            .map(one -> WishWords.standing(one, numbering))
            .findFirst()
            .map(List::of)
            .orElse(List.of("No course was found that keeps it."));
  }

  private static List<String> against(NoPlan none, Practice practice) {
    return none.cutShort() ? List.of(ENDED) : ClashWords.of(none.clashes(), practice);
  }

  static CourseCard none(int visits, List<String> obstacles) {
    return new CourseCard(visits, "", 0, "", 0, "", 0, List.of(), List.of(), obstacles, List.of());
  }

  static CourseCard card(Course course, Chart chart, int visits) {
    double dose = course.visits().stream().mapToDouble(Visit::doseShare).max().orElse(0);
    return new CourseCard(
        visits,
        course.cutShort() ? "The search was ended early; there may be a better course." : "",
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
        visit.areas().stream().map(area -> Words.area(area, chart)).toList(),
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
  private Reply help(Asked asked, int visits) {
    List<String> lines = List.of();
    try {
      if (outcome(asked, asked.search(visits, true), false) instanceof NoPlan none) {
        lines = ClashWords.remedies(none.remedies(), asked.practice());
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
  private Reply compare(Asked asked) {
    Question question = asked.question();
    Chart chart = asked.moved().wished(question.chart());
    try {
      Comparison comparison =
          searches.answer(
              asked.mouth().id(),
              question,
              chart,
              false,
              stop ->
                  new Comparer(question.effort(), 1, stop, Progress.UNHEARD)
                      .compare(
                          chart,
                          question.practice(),
                          VisitRange.USUAL,
                          List.of(question.whatIf())));
      return Reply.html(ComparePages.of(chart, question.practice(), comparison));
    } catch (UnworkableException lacksInsert) {
      return Views.message(409, folder.demo(), "That cannot be planned", List.of(NO_INSERT));
    }
  }

  /**
   * Begins the course's log with the plan, the chart and the practice that it was planned by; only
   * if they still are those of the course that was looked at.
   */
  private Reply accept(Request request, Asked asked, int visits) throws IOException {
    Question question = asked.question();
    Chart chart = asked.moved().wished(question.chart(), visits);
    if (!question.code(chart).equals(request.ifMatch())) {
      return Reply.json(
          412,
          Map.of(
              "text",
              "The chart or the practice file is another one by now. Nothing has been written;"
                  + " plan again."));
    }
    Optional<Course> course = course(asked, asked.search(visits, true));
    if (course.isEmpty() || course.get().cutShort()) {
      return Reply.json(409, Map.of("text", "There is no finished course of so many visits."));
    }
    String name = folder.courseName(question.chart().caseName());
    Path file = folder.root().resolve("courses").resolve(name);
    try {
      Recorder.Outcome outcome =
          new Recorder(file, folder.files())
              .begin(OffsetDateTime.now(clock), PlanFile.of(course.get()), chart, asked.practice());
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
    searches.close();
  }
}
