package quadrille.cli;

import java.time.Clock;
import java.time.Instant;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.jspecify.annotations.Nullable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;
import quadrille.cli.render.BookJson;
import quadrille.cli.render.BookText;
import quadrille.diary.book.Booking;
import quadrille.diary.book.CourseRequest;
import quadrille.diary.book.Diary;
import quadrille.diary.booking.BatchBooker;
import quadrille.diary.booking.BookingRemedies;
import quadrille.diary.booking.CarriedOn;
import quadrille.diary.booking.Offer;
import quadrille.diary.booking.Offers;
import quadrille.diary.booking.Remedy;
import quadrille.diary.booking.Taking;
import quadrille.diary.booking.problem.BookingWeights;
import quadrille.diary.calendar.Interval;
import quadrille.diary.file.ChangedDiaryException;
import quadrille.diary.file.LoadedDiary;
import quadrille.document.InvalidDocumentException;
import quadrille.plan.course.Course;
import quadrille.plan.course.PlanFile;
import quadrille.plan.course.PlanReader;

/** {@code quadrille book}: times for courses in a diary. */
@Command(
    name = "book",
    customSynopsis = "quadrille book [PLAN ...] --diary FILE [OPTION ...]",
    description = {
      "Offer times for a course in a diary, or book one of the offers.",
      "",
      "One plan: a few good and truly different ways to book all its visits, to be",
      "read out. --take N books offer N: the diary is replaced whole, and only if it",
      "still is the one that the offers were made from. Several plans, or --waiting:",
      "one offer for all of them together. Plan files are taken at their word here;",
      "audit checks them. Files asked for beside the diary are written only with it."
    })
final class BookCommand extends BaseCommand {

  private static final int USUAL_DAYS = 56;

  @Parameters(paramLabel = "PLAN", arity = "0..*", description = "Plan files; - is standard input.")
  private List<String> planFiles = List.of();

  @Option(
      names = "--diary",
      order = 10,
      required = true,
      paramLabel = "FILE",
      description = "The practice's diary.")
  private String diaryFile = "";

  @Option(names = "--waiting", order = 11, description = "Also the courses that wait in the diary.")
  private boolean waiting;

  @Option(
      names = "--from",
      order = 12,
      paramLabel = "DATE",
      description = "No visit before this day, such as 2026-03-02; else tomorrow.")
  @Nullable
  private LocalDate from;

  @Option(
      names = "--until",
      order = 13,
      paramLabel = "DATE",
      description = "No visit after this day; else eight weeks from the first.")
  @Nullable
  private LocalDate until;

  @Option(
      names = "--offers",
      order = 14,
      paramLabel = "N",
      defaultValue = "3",
      description = "How many offers, 1 to 9; else 3.")
  private int most;

  @Mixin private PatientOptions patient = new PatientOptions();

  @Option(
      names = "--weights",
      order = 25,
      paramLabel = "FILE",
      description = "What a good booking is worth, in place of the usual weights.")
  @Nullable
  private String weightsFile;

  @Option(names = "--take", order = 30, paramLabel = "N", description = "Book offer N.")
  @Nullable
  private Integer take;

  @Option(
      names = "--seen",
      order = 31,
      paramLabel = "CODE",
      description = "With --take: the code shown with the offers; others are not taken.")
  @Nullable
  private String seen;

  @Mixin private BookingFiles files = new BookingFiles();

  BookCommand(Streams streams) {
    super(streams);
  }

  /** What the offers are made from. */
  private record Asked(
      LoadedDiary loaded,
      Diary diary,
      List<CourseRequest> requests,
      BookingWeights weights,
      LocalDate first,
      LocalDate last) {}

  @Override
  int run() throws InvalidDocumentException, StopException {
    if (planFiles.isEmpty() && !waiting) {
      throw StopException.usage("book: name a plan, or --waiting for those who wait in the diary.");
    }
    patient.check(planFiles.size());
    if (most < 1 || most > 9) {
      throw StopException.usage("--offers: is " + most + "; 1 to 9 are allowed.");
    }
    if (seen != null && take == null) {
      throw StopException.usage("--seen: goes with --take.");
    }
    files.check(take != null, planFiles.size() == 1 && !waiting, inputs());
    Gathering gathering = new Gathering();
    List<Gathering.Read<PlanFile>> plans = new ArrayList<>();
    for (String file : planFiles) {
      plans.add(
          gathering.read(() -> PlanReader.read(Documents.name(file), documents().read(file))));
    }
    Gathering.Read<LoadedDiary> diary =
        gathering.read(() -> DiaryFiles.read(diaryFile, streams().files()));
    String worth = weightsFile;
    Gathering.Read<BookingWeights> weights =
        gathering.read(
            () ->
                worth == null
                    ? BookingWeights.defaults()
                    : BookingWeights.read(Documents.name(worth), documents().read(worth)));
    files.read(gathering, documents());
    patient.read(documents());
    gathering.check();
    files.checkBeside(SideFiles.calendars(diaryFile, diary.get()));
    List<Course> courses = new ArrayList<>();
    for (Gathering.Read<PlanFile> plan : plans) {
      courses.add(plan.get().course());
    }
    return offer(asked(diary.get(), courses, weights.get()), courses, true);
  }

  private List<String> inputs() {
    List<String> inputs = new ArrayList<>(planFiles);
    inputs.add(diaryFile);
    inputs.addAll(files.inputs());
    inputs.addAll(patient.inputs());
    if (weightsFile != null) {
      inputs.add(weightsFile);
    }
    return inputs;
  }

  private Asked asked(LoadedDiary read, List<Course> courses, BookingWeights weights)
      throws InvalidDocumentException, StopException {
    Diary own = read.diary();
    LocalDate first = from == null ? LocalDate.now(Clock.system(own.zone())).plusDays(1) : from;
    LocalDate last = until == null ? first.plusDays(USUAL_DAYS - 1) : until;
    Days.checkBooking(first, last);
    // What would help may lie after the last day, and must not be busy there.
    Interval known = LoadedDiary.days(own, first, last.plusDays(BookingRemedies.LATER_DAYS));
    Optional<List<Interval>> taken = patient.taken(own.zone(), known, this);
    List<CourseRequest> requests = new ArrayList<>();
    for (Course course : courses) {
      CarriedOn carried = request(own, course, first);
      for (CarriedOn.CalledOff off : carried.calledOff()) {
        message(BookText.calledOff(off, own, take != null));
      }
      own = carried.over(own);
      CourseRequest request = carried.request();
      requests.add(
          taken.isEmpty()
              ? request
              : request.withAvailability(request.availability().withCalendars(taken.get(), known)));
    }
    if (waiting) {
      for (CourseRequest request : own.courses()) {
        boolean named =
            requests.stream().anyMatch(one -> one.caseName().equals(request.caseName()));
        if (!named && !own.unbooked(request).isEmpty()) {
          requests.add(request);
        }
      }
    }
    if (requests.stream().map(CourseRequest::caseName).distinct().count() < requests.size()) {
      throw StopException.usage("book: two of the plans are of the same case.");
    }
    LoadedDiary loaded = new LoadedDiary(own, read.revision(), read.calendars());
    Diary over = loaded.over(known);
    for (CourseRequest request : requests) {
      over = Taking.asking(over, request);
    }
    return new Asked(loaded, over, requests, weights, first, last);
  }

  /** What a plan asks for; a course that waits already keeps what its patient said. */
  private CarriedOn request(Diary own, Course course, LocalDate first) throws StopException {
    if (course.visits().isEmpty()) {
      throw StopException.refused(course.caseName() + ": its plan has no visit to book.");
    }
    Optional<CourseRequest> known = own.course(course.caseName());
    CarriedOn carried =
        CarriedOn.of(
            own,
            course,
            CourseRequest.of(
                course,
                own.stock(),
                known.map(CourseRequest::asked).orElse(first),
                known.map(CourseRequest::earliest).orElse(first),
                patient.availability(known),
                patient.preferences(own, known)));
    if (carried.over(own).unbooked(carried.request()).isEmpty()) {
      carried.calledOff().forEach(off -> message(BookText.tooMany(off, own)));
      throw StopException.refused(course.caseName() + ": all its visits are booked.");
    }
    return carried;
  }

  private int offer(Asked asked, List<Course> courses, boolean mayTake)
      throws InvalidDocumentException, StopException {
    List<Offer> offers = new ArrayList<>();
    List<String> left = List.of();
    boolean together = asked.requests().size() != 1;
    if (together) {
      BatchBooker.Booked booked =
          BatchBooker.book(
              asked.diary(), asked.requests(), asked.weights(), asked.first(), asked.last());
      left = booked.left();
      if (!booked.visits().isEmpty()) {
        offers.add(BookText.together(booked, asked.diary()));
      }
    } else {
      offers.addAll(
          Offers.of(
              asked.diary(),
              asked.requests().get(0),
              asked.weights(),
              asked.first(),
              asked.last(),
              most));
    }
    if (offers.isEmpty()) {
      return noWay(asked);
    }
    for (Offer offer : offers) {
      DiaryFiles.check(diaryFile, asked.loaded(), after(asked, offer));
    }
    String code = OfferCode.of(asked.loaded().revision(), offers);
    Integer number = take;
    if (number == null || !mayTake) {
      show(asked, offers, left, code, null);
      return mayTake && left.isEmpty() ? Status.DONE : Status.REFUSED;
    }
    if (seen != null && !seen.equals(code)) {
      message(diaryFile + ": these are not the offers of " + seen + " any more. New offers:");
      show(asked, offers, left, code, null);
      return Status.REFUSED;
    }
    if (number < 1 || number > offers.size()) {
      throw StopException.usage(
          "--take: is " + number + "; there are offers 1 to " + offers.size() + ".");
    }
    return taken(asked, courses, offers.get(number - 1), left, code);
  }

  private int taken(Asked asked, List<Course> courses, Offer offer, List<String> left, String code)
      throws InvalidDocumentException, StopException {
    Diary after = after(asked, offer);
    List<Booking> fresh = new ArrayList<>(after.bookings());
    fresh.removeAll(asked.loaded().diary().bookings());
    String caseName = asked.requests().get(0).caseName();
    try (SideFiles beside = new SideFiles(streams().files(), files.force())) {
      files.prepare(beside, after, fresh, caseName, Instant.now(Clock.systemUTC()));
      DiaryFiles.replace(diaryFile, asked.loaded().revision(), after, streams().files());
      show(asked, List.of(offer), left, code, take);
      beside.commit(this);
    } catch (ChangedDiaryException changed) {
      message(String.valueOf(changed.getMessage()));
      LoadedDiary now = DiaryFiles.read(diaryFile, streams().files());
      DiaryChanges.between(asked.loaded().diary(), now.diary()).forEach(this::message);
      message("New offers:");
      return offer(asked(now, courses, asked.weights()), courses, false);
    }
    return left.isEmpty() ? Status.DONE : Status.REFUSED;
  }

  private static Diary after(Asked asked, Offer offer) {
    Diary after = asked.loaded().diary();
    for (CourseRequest request : asked.requests()) {
      after = Taking.asking(after, request);
    }
    return Taking.booked(after, offer.visits());
  }

  private void show(
      Asked asked, List<Offer> offers, List<String> left, String code, @Nullable Integer taken)
      throws StopException {
    answer(
        format(Format.TEXT) == Format.JSON
            ? BookJson.of(asked.diary(), offers, left, code, taken)
            : BookText.of(
                asked.diary(), asked.first(), offers, left, code, taken, streams().styled()));
  }

  private int noWay(Asked asked) throws StopException {
    CourseRequest request = asked.requests().get(0);
    List<Remedy> remedies =
        asked.requests().size() > 1
            ? List.of()
            : BookingRemedies.of(
                asked.diary(), request, asked.weights(), asked.first(), asked.last());
    answer(
        format(Format.TEXT) == Format.JSON
            ? BookJson.noWay(remedies)
            : BookText.noWay(asked.requests(), asked.first(), asked.last(), remedies));
    return Status.REFUSED;
  }
}
