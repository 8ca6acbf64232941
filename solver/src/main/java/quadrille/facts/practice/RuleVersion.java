package quadrille.facts.practice;

/**
 * By the rules of which release a plan was made. A plan is read a second time by the rules of its
 * own, since later ones ask for what it could not know; what is planned anew keeps the present
 * ones.
 */
public enum RuleVersion {
  /**
   * 0.1.0: a later pass of an area might wait for another visit, a visit had set-up and close only,
   * cover counted whether dependable or not, no injection was booked to fail, nothing was asked
   * first.
   */
  FIRST("0.1.0"),
  /** The present rules. */
  PRESENT("0.2.0");

  private final String release;

  RuleVersion(String release) {
    this.release = release;
  }

  /** The first release that planned by them. */
  public String release() {
    return release;
  }
}
