package quadrille.cli.render;

import java.util.List;
import org.jspecify.annotations.Nullable;
import quadrille.facts.chart.Numbering;
import quadrille.facts.practice.Insert;
import quadrille.facts.practice.Practice;
import quadrille.facts.practice.PracticeReader;
import quadrille.plan.course.Kit;
import quadrille.plan.course.Visit;

/** What to lay out, as a list to tick off. */
public final class KitText {

  private static final int INDENT = 14;

  private final Page page;
  private final @Nullable Practice stock;
  private final Practice practice;

  private KitText(@Nullable Practice stock, boolean styled) {
    this.page = new Page(styled);
    this.stock = stock;
    this.practice = stock == null ? PracticeReader.defaults() : stock;
  }

  /**
   * Renders the kit of visits: each visit by itself, then all together.
   *
   * @param stock whose sterile inserts are counted; null where none are to be
   * @param styled whether headings are set off by terminal codes
   */
  public static String of(List<KitVisit> visits, @Nullable Practice stock, boolean styled) {
    KitText text = new KitText(stock, styled);
    if (visits.isEmpty()) {
      return text.page.paragraph("No visit is planned, so there is nothing to lay out.").text();
    }
    visits.forEach(text::visit);
    text.together(Kit.of(visits.stream().map(KitVisit::visit).toList()));
    return text.page.text();
  }

  private void visit(KitVisit of) {
    Visit visit = of.visit();
    Kit kit = Kit.of(List.of(visit));
    page.heading(
        of.caseName()
            + ", visit "
            + visit.number()
            + ": "
            + visit.bookedMinutes()
            + "\u00a0min booked, "
            + (visit.injections().isEmpty() ? "no injection" : Words.numb(visit) + " numb"));
    MindWords.stopQuestions(visit).forEach(question -> page.hang("Stop", INDENT, question));
    page.hang("Inserts", INDENT, String.join("; ", kit.inserts().keySet()));
    if (kit.sleeves() > 0) {
      page.hang("Sleeves", INDENT, Words.count(kit.sleeves(), "new implant sleeve"));
    }
    kit.cartridges()
        .forEach((agent, number) -> page.hang("Cartridges", INDENT, cartridges(kit, agent)));
    if (!visit.injections().isEmpty()) {
      page.hang(
          "Injections",
          INDENT,
          String.join(
              "; ",
              visit.injections().stream()
                  .map(given -> Words.injection(given.ref(), of.numbering(), practice))
                  .toList()));
    }
    if (visit.injections().stream().anyMatch(given -> given.tooth() != null) && of.told()) {
      page.hang(
          "Teeth",
          INDENT,
          of.numbering() == Numbering.UNIVERSAL
              ? "numbered 1 to 32 from the upper right third molar"
              : "ISO 3950 codes");
    }
    if (kit.gelCartridges() > 0) {
      page.hang("Pocket gel", INDENT, Words.count(kit.gelCartridges(), "cartridge"));
    }
  }

  private String cartridges(Kit kit, String agent) {
    double ml = kit.ml().getOrDefault(agent, 0.0);
    return kit.cartridges().get(agent)
        + " of "
        + Words.agent(agent, practice)
        + ", "
        + Words.number(ml, 2)
        + "\u00a0mL to be given";
  }

  private void together(Kit kit) {
    page.heading("Together, " + Words.count(kit.sterileSets(), "visit"));
    row("Sterile sets, one a visit", kit.sterileSets(), "");
    kit.inserts()
        .forEach((insert, number) -> row("Insert " + insert, number, ready(insert, number)));
    if (kit.sleeves() > 0) {
      row("Implant sleeves, new", kit.sleeves(), "");
    }
    kit.cartridges().forEach((agent, number) -> row(cartridges(agent), number, ""));
    if (kit.gelCartridges() > 0) {
      row("Pocket gel cartridges", kit.gelCartridges(), "");
    }
    page.blank();
    page.paragraph(
        "Nothing is shared between visits. The plans were taken at their word; audit checks them."
            + (stock == null
                ? kit.cartridges().isEmpty()
                    ? ""
                    : " Anaesthetics are called as in the default practice file."
                : " What is short is short only where all these visits are on one day."));
  }

  private String cartridges(String agent) {
    return "Cartridges " + Words.agent(agent, practice);
  }

  private String ready(String insert, int number) {
    if (stock == null) {
      return "";
    }
    Insert owned = stock.inserts().get(insert);
    if (owned == null) {
      return ", of which the practice has none";
    }
    int sets = owned.sterileSets();
    return ", " + sets + " ready" + (number > sets ? ", short by " + (number - sets) : "");
  }

  private void row(String name, int number, String more) {
    page.line("[ ] " + Page.padLeft(Integer.toString(number), 3) + "  " + name + more);
  }
}
