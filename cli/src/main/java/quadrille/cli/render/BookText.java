package quadrille.cli.render;

import java.time.LocalDate;
import java.time.ZonedDateTime;
import java.time.format.DateTimeFormatter;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import org.jspecify.annotations.Nullable;
import quadrille.booking.Everybody;
import quadrille.booking.Merit;
import quadrille.booking.Offer;
import quadrille.booking.OfferedVisit;
import quadrille.booking.Remedy;
import quadrille.diary.Chair;
import quadrille.diary.Clinician;
import quadrille.diary.CourseRequest;
import quadrille.diary.Diary;

/** Offers to be read out, two lines each. */
public final class BookText {

  private static final int INDENT = 3;
  private static final DateTimeFormatter WHEN =
      DateTimeFormatter.ofPattern("EEE d MMM HH:mm", Locale.ENGLISH);
  private static final DateTimeFormatter DAY = DateTimeFormatter.ofPattern("d MMM", Locale.ENGLISH);

  private final Diary diary;
  private final Page page;

  private BookText(Diary diary, boolean styled) {
    this.diary = diary;
    this.page = new Page(styled);
  }

  /** Many courses' bookings as one offer. */
  public static Offer together(Everybody.Booked booked, Diary diary) {
    LocalDate end =
        booked.visits().stream()
            .map(visit -> visit.start().atZone(diary.zone()).toLocalDate())
            .max(LocalDate::compareTo)
            .orElseThrow();
    return new Offer(booked.visits(), List.of(), end, end, Map.of());
  }

  /**
   * Renders offers.
   *
   * @param left cases without a place
   * @param code with which an offer is taken
   * @param taken the number of the one offer, if it has been booked
   */
  public static String of(
      Diary diary,
      List<Offer> offers,
      List<String> left,
      String code,
      @Nullable Integer taken,
      boolean styled) {
    BookText text = new BookText(diary, styled);
    List<String> cases =
        offers.get(0).visits().stream().map(OfferedVisit::caseName).distinct().toList();
    boolean together = cases.size() > 1 || offers.get(0).because().isEmpty();
    text.page.heading(
        (taken == null ? "Offers for " : "Booked for ")
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
    text.page.blank();
    text.page.paragraph(
        taken == null
            ? "To book one, add --take " + (together ? "1" : "N") + " --seen " + code + "."
            : "The diary has been replaced; it has passed its audit.");
    return text.page.text();
  }

  /** Says that there is no legal way, and what would help. */
  public static String noWay(
      List<CourseRequest> requests, LocalDate first, LocalDate last, List<Remedy> remedies) {
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
    if (remedies.isEmpty()) {
      page.paragraph(
          requests.size() == 1
              ? "No single change that was tried helps."
              : "What would help is sought for one course at a time: book them one by one.");
    } else {
      page.paragraph("Each of these changes alone would help:");
      for (Remedy remedy : remedies) {
        page.item(remedy.change() + " (in the way: " + remedy.rule() + ")");
      }
    }
    return page.text();
  }

  private void offer(int number, Offer offer) {
    List<String> times = new ArrayList<>();
    for (OfferedVisit visit : offer.visits()) {
      times.add(noBreak(WHEN.format(at(visit))));
    }
    // Only one, so that an offer fits two lines; who treats can be read in the second.
    Merit because = offer.because().get(0);
    page.hang(
        Integer.toString(number),
        INDENT,
        String.join(", ", times) + ". " + Words.capital(noBreak(because.word())) + ".");
    page.hang(
        "",
        INDENT,
        places(offer.visits())
            + "; re-evaluate "
            + noBreak(DAY.format(offer.reevaluateFrom()))
            + " to "
            + noBreak(DAY.format(offer.reevaluateTo()))
            + ".");
  }

  private void courses(Offer offer) {
    Map<String, List<OfferedVisit>> byCase = new LinkedHashMap<>();
    for (OfferedVisit visit : offer.visits()) {
      byCase.computeIfAbsent(visit.caseName(), key -> new ArrayList<>()).add(visit);
    }
    byCase.forEach(
        (caseName, visits) -> {
          List<String> times = new ArrayList<>();
          for (OfferedVisit visit : visits) {
            times.add(noBreak(WHEN.format(at(visit))));
          }
          page.line(caseName);
          page.hang("", INDENT, String.join(", ", times));
          page.hang("", INDENT, places(visits));
        });
  }

  /** Who, where and how long; once where it is the same in all visits. */
  private String places(List<OfferedVisit> visits) {
    List<String> who = new ArrayList<>();
    List<String> chairs = new ArrayList<>();
    List<String> minutes = new ArrayList<>();
    for (OfferedVisit visit : visits) {
      who.add(diary.clinician(visit.clinician()).map(Clinician::name).orElse(visit.clinician()));
      chairs.add(diary.chair(visit.chair()).map(Chair::name).orElse(visit.chair()));
      minutes.add(Integer.toString(visit.minutes()));
    }
    return once(who) + "; " + once(chairs) + "; " + once(minutes) + noBreak(" min");
  }

  private static String once(List<String> words) {
    return words.stream().distinct().count() == 1 ? words.get(0) : String.join(", ", words);
  }

  private ZonedDateTime at(OfferedVisit visit) {
    return visit.start().atZone(diary.zone());
  }

  private static String noBreak(String words) {
    return words.replace(' ', '\u00a0');
  }
}
