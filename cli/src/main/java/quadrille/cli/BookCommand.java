package quadrille.cli;

import java.time.Instant;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.List;
import org.jspecify.annotations.Nullable;
import picocli.CommandLine.ArgGroup;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;
import quadrille.cli.render.BookJson;
import quadrille.cli.render.BookText;
import quadrille.cli.render.BookWords;
import quadrille.diary.book.Diary;
import quadrille.diary.book.LongerGaps;
import quadrille.diary.book.Signature;
import quadrille.diary.booking.problem.BookingWeights;
import quadrille.diary.desk.BookingAnswer;
import quadrille.diary.desk.BookingDesk;
import quadrille.diary.desk.BookingOrder;
import quadrille.diary.desk.BookingTaken;
import quadrille.diary.desk.PatientWishes;
import quadrille.diary.file.LoadedDiary;
import quadrille.document.InvalidDocumentException;
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
final class BookCommand extends AnswerCommand {

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

  @ArgGroup(exclusive = false)
  @Nullable
  private PatientOptions patient;

  @ArgGroup(exclusive = false)
  @Nullable
  private GapOptions gaps;

  @Option(
      names = "--weights",
      order = 25,
      paramLabel = "FILE",
      description = "What a good booking is worth, in place of the usual weights.")
  @Nullable
  private String weightsFile;

  @ArgGroup(exclusive = false)
  @Nullable
  private Taking taking;

  /** Which offer is taken, and what is written with it. */
  private static final class Taking {

    @Option(
        names = "--take",
        order = 30,
        required = true,
        paramLabel = "N",
        description = "Book offer N.")
    private int offer;

    @Option(
        names = "--seen",
        order = 31,
        paramLabel = "CODE",
        description = "With --take: the code shown with the offers; others are not taken.")
    @Nullable
    private String seen;

    @Option(
        names = "--hold-until",
        order = 32,
        paramLabel = "TIME",
        description =
            "With --take: hold the visits until then and do not promise them; such as"
                + " 2026-03-05T12:00.")
    @Nullable
    private String until;

    @ArgGroup(exclusive = false)
    private BookingFiles files = new BookingFiles();
  }

  @Mixin private DeadlineOption deadline = new DeadlineOption();

  @Mixin private SigningOptions signing = new SigningOptions();

  BookCommand(Streams streams) {
    super(streams);
  }

  @Override
  int run() throws InvalidDocumentException, StopException {
    if (planFiles.isEmpty() && !waiting) {
      throw StopException.usage("book: name a plan, or --waiting for those who wait in the diary.");
    }
    if (patient != null && planFiles.size() != 1) {
      throw StopException.usage(
          "--can, --cannot, --patient-ics, --likes and --likes-clinician: are for one plan at a"
              + " time.");
    }
    if (gaps != null && planFiles.size() != 1) {
      throw StopException.usage("--longer-gaps: is for one plan at a time.");
    }
    LongerGaps longer = gaps == null ? null : gaps.longer();
    deadline.check();
    if (most < 1 || most > 9) {
      throw StopException.usage("--offers: is " + most + "; 1 to 9 are allowed.");
    }
    BookingFiles files = taking == null ? new BookingFiles() : taking.files;
    files.check(planFiles.size() == 1 && !waiting, output(), inputs(files));
    checkOutput(inputs(files).toArray(String[]::new));
    Gathering gathering = new Gathering();
    List<Gathering.Read<PlanFile>> plans = new ArrayList<>();
    for (String file : planFiles) {
      plans.add(
          gathering.read(() -> PlanReader.read(Documents.name(file), documents().read(file))));
    }
    Gathering.Read<LoadedDiary> diary = gathering.read(() -> DiaryFiles.now(diaryFile, streams()));
    String worth = weightsFile;
    Gathering.Read<BookingWeights> weights =
        gathering.read(
            () ->
                worth == null
                    ? BookingWeights.defaults()
                    : BookingWeights.read(Documents.name(worth), documents().read(worth)));
    files.read(gathering, documents());
    PatientWishes wishes = patient == null ? PatientWishes.NONE : patient.wishes(documents());
    gathering.check();
    LoadedDiary read = diary.get();
    files.checkBeside(output(), SideFiles.calendars(diaryFile, read));
    LocalDate first =
        from == null
            ? LocalDate.now(streams().clock().withZone(read.diary().zone())).plusDays(1)
            : from;
    BookingOrder order =
        new BookingOrder(
            plans.stream().map(plan -> plan.get().course()).toList(),
            waiting,
            wishes,
            weights.get(),
            first,
            last(first),
            most,
            until(read.diary()),
            null,
            longer);
    past(first, read.diary());
    DiaryFiles.tell(this, read, first.atStartOfDay(read.diary().zone()).toInstant());
    return answered(
        DiaryFiles.at(
            diaryFile,
            file -> {
              try (Seeking seeking = new Seeking(streams(), deadline)) {
                return BookingDesk.offer(read, order, seeking.watch());
              }
            }),
        taking);
  }

  private @Nullable Instant until(Diary diary) throws StopException {
    String text = taking == null ? null : taking.until;
    if (text == null) {
      return null;
    }
    Instant moment = Days.wall("--hold-until", text, diary.zone());
    if (!moment.isAfter(streams().clock().instant())) {
      throw StopException.usage("--hold-until: is " + text + ", which is past.");
    }
    return moment;
  }

  /** What is booked into the past is said to be. */
  private void past(LocalDate first, Diary diary) {
    if (first.isBefore(LocalDate.now(streams().clock().withZone(diary.zone())))) {
      message("--from: " + first + " is past; visits may be booked on days that are over.");
    }
  }

  private LocalDate last(LocalDate first) throws StopException {
    LocalDate last = until == null ? first.plusDays(USUAL_DAYS - 1) : until;
    Days.checkBooking(first, last);
    return last;
  }

  private List<String> inputs(BookingFiles files) {
    List<String> inputs = new ArrayList<>(planFiles);
    inputs.add(diaryFile);
    inputs.addAll(files.inputs());
    if (patient != null) {
      inputs.addAll(patient.inputs());
    }
    if (weightsFile != null) {
      inputs.add(weightsFile);
    }
    return inputs;
  }

  /**
   * Shows an answer, or takes one of its offers.
   *
   * @param take null where none is to be taken
   */
  private int answered(BookingAnswer answer, @Nullable Taking take)
      throws InvalidDocumentException, StopException {
    if (answer instanceof BookingAnswer.NoWay noWay) {
      tell(noWay.asked(), false);
      answer(format(Format.TEXT) == Format.JSON ? BookJson.noWay(noWay) : BookText.noWay(noWay));
      return Status.REFUSED;
    }
    if (!(answer instanceof BookingAnswer.Offered offered)) {
      String why = BookWords.refusal(answer);
      boolean usage =
          answer instanceof BookingAnswer.SameCase
              || answer instanceof BookingAnswer.UnknownClinician;
      throw usage ? StopException.usage(why) : StopException.refused(why);
    }
    boolean others = take != null && take.seen != null && !take.seen.equals(offered.code());
    tell(offered.asked(), take != null && !others);
    if (take == null) {
      return show(offered, null);
    }
    if (others) {
      message(diaryFile + ": these are not the offers of " + take.seen + " any more. New offers:");
      show(offered, null);
      return Status.REFUSED;
    }
    int number = take.offer;
    if (number < 1 || number > offered.offers().size()) {
      throw StopException.usage(
          "--take: is " + number + "; there are offers 1 to " + offered.offers().size() + ".");
    }
    return taken(offered, number, take.files);
  }

  private int taken(BookingAnswer.Offered offered, int number, BookingFiles files)
      throws InvalidDocumentException, StopException {
    String caseName = offered.asked().requests().get(0).caseName();
    BookingTaken taken;
    Instant now = streams().clock().instant();
    Signature signed = signing.signature(this, now);
    try (SideFiles beside = new SideFiles(streams().files(), files.expected())) {
      files.prepare(beside, offered.after(number), offered.fresh(number), caseName, now);
      taken =
          DiaryFiles.at(
              diaryFile,
              file -> BookingDesk.take(file, offered, number, signed, streams().files()));
      if (taken instanceof BookingTaken.Done) {
        int status = show(offered, number);
        beside.commit(this);
        return status;
      }
    }
    if (taken instanceof BookingTaken.Changed changed) {
      message(BookWords.changed(diaryFile));
      changed.differences().forEach(one -> message("- " + BookWords.difference(one)));
      message("New offers:");
      answered(changed.again(), null);
    }
    return Status.REFUSED;
  }

  /** What the desk took for something, and which bookings are called off. */
  private void tell(BookingAnswer.Asked asked, boolean taking) {
    asked.notes().forEach(note -> message(note.calendar() + ": " + note.note()));
    asked
        .calledOff()
        .forEach(off -> message(BookWords.calledOff(off, asked.read().diary(), taking)));
    asked.restated().forEach(one -> message(BookWords.restated(one, asked.read().diary(), taking)));
  }

  private int show(BookingAnswer.Offered offered, @Nullable Integer taken) throws StopException {
    if (offered.cutShort()) {
      message(
          "The search was cut short: a longer one may find a cheaper way, and another run may find"
              + " another.");
    }
    answer(
        format(Format.TEXT) == Format.JSON
            ? BookJson.of(offered, taken)
            : BookText.of(offered, taken, styled()));
    return offered.left().isEmpty() ? Status.DONE : Status.REFUSED;
  }
}
