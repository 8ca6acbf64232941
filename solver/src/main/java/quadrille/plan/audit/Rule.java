package quadrille.plan.audit;

/** What a course is held to. The first eleven are the hard rules of staging. */
public enum Rule {
  H1("one numb side"),
  H2("no double block"),
  H3("dose"),
  H4("length"),
  H5("order of passes"),
  H6("together"),
  H7("implants"),
  /** Also where no injection of the visit numbs what a step needs. */
  H8("numbness lasts"),
  H9("kits"),
  H10("alerts"),
  H11("begun is finished"),
  /** What is wished and must be kept. */
  WISH("wishes"),
  /** The minutes of a visit: each entry starts where the last one ended, and is as long as due. */
  CLOCK("minutes"),
  /** The work that is due is done once or held back for a true reason, and nothing is added. */
  WORK("all work once"),
  /** What the plan says of itself is so: doses, booked minutes, risk, tray, sums, cost. */
  REPORT("true report");

  private final String words;

  Rule(String words) {
    this.words = words;
  }

  /** The rule's name in the trade's words, such as {@code one numb side}. */
  public String words() {
    return words;
  }
}
