package quadrille.cli.render;

import java.time.LocalDate;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import org.jspecify.annotations.Nullable;
import quadrille.diary.book.CourseRequest;
import quadrille.diary.book.Diary;
import quadrille.diary.booking.Offer;
import quadrille.diary.booking.OfferedVisit;
import quadrille.diary.booking.Remedy;
import quadrille.diary.desk.BookingAnswer;

/** Offers to be read out, a line for each visit. */
public final class BookText {

  private static final int INDENT = 3;

  private final Diary diary;
  private final int year;
  private final Page page;

  private BookText(Diary diary, LocalDate first, boolean styled) {
    this.diary = diary;
    this.year = first.getYear();
    this.page = new Page(styled);
  }

  /**
   * Renders offers.
   *
   * @param taken the number of the one offer that has been booked; null where none has
   */
  public static String of(BookingAnswer.Offered offered, @Nullable Integer taken, boolean styled) {
    List<Offer> offers = taken == null ? offered.offers() : List.of(offered.offer(taken));
    return of(
        offered.asked().whole(),
        offered.asked().order().first(),
        offers,
        offered.left(),
        offered.code(),
        taken,
        styled);
  }

  /**
   * The same.
   *
   * @param first day on which something may be booked; its year goes without saying
   * @param left cases without a place
   * @param code with which an offer is taken
   */
  static String of(
      Diary diary,
      LocalDate first,
      List<Offer> offers,
      List<String> left,
      String code,
      @Nullable Integer taken,
      boolean styled) {
    BookText text = new BookText(diary, first, styled);
    List<String> cases =
        offers.get(0).visits().stream().map(OfferedVisit::caseName).distinct().toList();
    boolean together = cases.size() > 1 || offers.get(0).because().isEmpty();
    text.page.heading(
        cases.isEmpty()
            ? "Booked already"
            : (taken == null ? "Offers for " : "Booked for ")
                + (together ? Words.count(cases.size(), "course") : cases.get(0)));
    for (int i = 0; i < offers.size(); i++) {
      if (together) {
        text.courses(offers.get(i));
      } else {
        text.offer(taken == null ? i + 1 : taken, offers.get(i));
      }
    }
    if (!left.isEmpty()) {
      text.page.blank();
      text.page.paragraph("Without a place: " + String.join(", ", left) + ".");
    }
    List<String> held =
        cases.stream()
            .filter(name -> diary.course(name).map(CourseRequest::provisional).orElse(false))
            .toList();
    if (!held.isEmpty()) {
      text.page.blank();
      text.page.paragraph(BookWords.held(held));
    }
    text.page.blank();
    text.page.paragraph(
        taken == null
            ? "To book one, add --take " + (together ? "1" : "N") + " --seen " + code + "."
            : "The diary has been replaced; it has passed its audit.");
    return text.page.text();
  }

  /** Says that there is no feasible way, and what would help. */
  public static String noWay(BookingAnswer.NoWay noWay) {
    List<CourseRequest> requests = noWay.asked().requests();
    LocalDate first = noWay.asked().order().first();
    LocalDate last = noWay.asked().order().last();
    Page page = new Page(false);
    page.paragraph(
        "No booking of "
            + String.join(", ", requests.stream().map(CourseRequest::caseName).toList())
            + " from "
            + first
            + " to "
            + last
            + " keeps every rule.");
    page.blank();
    if (noWay.remedies().isEmpty()) {
      page.paragraph(
          requests.size() == 1
              ? "No single change that was tried helps."
              : "What would help is sought for one course at a time: book them one by one.");
    } else {
      page.paragraph("Each of these changes alone would help:");
      for (Remedy remedy : noWay.remedies()) {
        BookWords.Help help = BookWords.help(remedy, noWay.asked().own().zone(), first.getYear());
        page.item(help.change() + " (in the way: " + help.rule() + ")");
      }
    }
    return page.text();
  }

  /** What speaks for it on the first line, then a line for each visit, to be read out. */
  private void offer(int number, Offer offer) {
    String label = Integer.toString(number);
    if (offer.visits().isEmpty()) {
      page.hang(label, INDENT, "Every visit keeps its time.");
      return;
    }
    page.hang(label, INDENT, BookWords.merits(offer, diary));
    for (OfferedVisit visit : offer.visits()) {
      page.hang("", INDENT, BookWords.visit(visit, diary));
    }
    for (String gap : BookWords.stretched(offer, diary)) {
      page.hang("", INDENT, gap);
    }
    page.hang("", INDENT, BookWords.reevaluation(offer));
  }

  private void courses(Offer offer) {
    Map<String, List<OfferedVisit>> byCase = new LinkedHashMap<>();
    for (OfferedVisit visit : offer.visits()) {
      byCase.computeIfAbsent(visit.caseName(), key -> new ArrayList<>()).add(visit);
    }
    byCase.forEach(
        (caseName, visits) -> {
          page.line(caseName);
          page.hang("", INDENT, DiaryWords.times(diary, visits, year));
          page.hang("", INDENT, DiaryWords.places(diary, visits, false));
          for (OfferedVisit visit : visits) {
            if (!visit.injectors().isEmpty()) {
              page.hang(
                  "",
                  INDENT,
                  DiaryWords.when(visit.start(), diary.zone(), year)
                      + DiaryWords.calls(diary, visit.injectors(), visit.start()));
            }
          }
        });
  }
}
