/**
 * Packages that a stranger can use, check and pool: stored cuts out as Frictionless Data Package
 * (version 2) or Parquet, packages and text logs of others in. What comes in is hostile until it is
 * checked.
 */
package snick.exchange;
