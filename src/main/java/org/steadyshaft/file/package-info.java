/**
 * Files on disk, handled so that none of the user's is lost and nothing hangs: {@link org.steadyshaft.file.InputFiles} says what may be
 * read, {@link org.steadyshaft.file.WholeFiles} writes whole files or none, {@link org.steadyshaft.file.OutputFolder} claims a folder for
 * results and replaces in it only what bears the program's own marks.
 */
package org.steadyshaft.file;
