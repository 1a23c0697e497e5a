"""Routes in the order in which they are worth trying."""
