/**
 * Commands, progress and exit status: the only room that prints or exits. Start at {@link org.steadyshaft.cli.Main};
 * {@link org.steadyshaft.cli.AnalyseCommand} is the main job and the default. Exit status: 0 all well, 1 some capture
 * unusable, 2 wrong usage. Uses all rooms.
 */
package org.steadyshaft.cli;
