package quadrille.cli.render;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import quadrille.plan.scenario.Choice;
import quadrille.plan.scenario.CourseFigures;

/**
 * Says in one sentence each what an extra visit buys, in the figures that the table shows, and
 * which choices are proven best.
 */
public final class ExtraVisits {

  private ExtraVisits() {}

  /**
   * @param choices by number of visits, ascending
   */
  public static List<String> sentences(List<Choice> choices) {
    List<String> sentences = new ArrayList<>();
    CourseFigures before = null;
    for (Choice choice : choices) {
      CourseFigures now = choice.figures();
      if (now == null) {
        continue;
      }
      sentences.add(before == null ? fewest(now, choices) : step(before, now));
      before = now;
    }
    List<String> proven =
        choices.stream()
            .filter(choice -> choice.figures() != null && choice.figures().provenBest())
            .map(ChoiceWords::name)
            .toList();
    if (!proven.isEmpty()) {
      sentences.add(
          "Proven best, since no course of so many visits can cost less: " + list(proven) + ".");
    }
    return sentences;
  }

  private static String fewest(CourseFigures now, List<Choice> choices) {
    boolean fewerTried = choices.get(0).visits() < now.visits();
    String words = count(now.visits(), "visit");
    String longest = ", the longest " + now.longestMinutes() + " min.";
    if (fewerTried) {
      return words
          + (now.visits() == 1 ? " is" : " are")
          + " the fewest found to keep every rule"
          + longest;
    }
    return words + (now.visits() == 1 ? " keeps" : " keep") + " every rule" + longest;
  }

  private static String step(CourseFigures before, CourseFigures now) {
    List<String> bought = new ArrayList<>();
    List<String> paid = new ArrayList<>();
    weigh(bought, paid, "a longest visit of %d instead of %d min", longest(before), longest(now));
    weigh(bought, paid, "a largest dose of %d instead of %d %%", dose(before), dose(now));
    weigh(bought, paid, "a risk of running over of %d instead of %d %%", risk(before), risk(now));
    weigh(bought, paid, "%d instead of %d tip changes", before.tipChanges(), now.tipChanges());
    weigh(bought, paid, "%d instead of %d injections", before.injections(), now.injections());
    difference(
        bought,
        paid,
        chair(before),
        chair(now),
        " min less in the chair",
        " min more in the chair");
    difference(bought, paid, before.spanDays(), now.spanDays(), " days fewer", " days more");
    String who = count(now.visits(), "visit") + " instead of " + before.visits();
    String price = paid.isEmpty() ? "" : list(paid);
    if (bought.isEmpty()) {
      return who + " buy nothing here" + (paid.isEmpty() ? "." : " and cost " + price + ".");
    }
    return who + " buy " + list(bought) + (paid.isEmpty() ? "." : ", for " + price + ".");
  }

  private static void weigh(
      List<String> bought, List<String> paid, String words, long before, long now) {
    if (now != before) {
      (now < before ? bought : paid).add(String.format(Locale.ROOT, words, now, before));
    }
  }

  private static void difference(
      List<String> bought, List<String> paid, long before, long now, String less, String more) {
    if (now < before) {
      bought.add(before - now + less);
    } else if (now > before) {
      paid.add(now - before + more);
    }
  }

  private static long longest(CourseFigures figures) {
    return figures.longestMinutes();
  }

  private static long dose(CourseFigures figures) {
    return Math.round(100 * figures.largestDoseShare());
  }

  private static long risk(CourseFigures figures) {
    return Math.round(100 * figures.overrunRisk());
  }

  private static long chair(CourseFigures figures) {
    return Math.round(figures.chairSeconds() / 60.0);
  }

  private static String count(int number, String thing) {
    return number + " " + thing + (number == 1 ? "" : "s");
  }

  private static String list(List<String> words) {
    int last = words.size() - 1;
    return last == 0
        ? words.get(0)
        : String.join(", ", words.subList(0, last)) + " and " + words.get(last);
  }
}
