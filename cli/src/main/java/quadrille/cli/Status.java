package quadrille.cli;

/** The exit status of the program; scripts rely on these. */
final class Status {

  /** What was asked for is done. */
  static final int DONE = 0;

  /** No plan keeps every hard rule, or an audit found something. */
  static final int REFUSED = 1;

  /** Wrong usage, among it an existing output file without {@code --force}. */
  static final int USAGE = 2;

  /** A file that is invalid, or that cannot be read or written. */
  static final int FILE = 3;

  /** A fault of the program's own. */
  static final int FAULT = 70;

  private Status() {}
}
