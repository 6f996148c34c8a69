"""What a person can do, one function a verb: the seam the faces share."""
