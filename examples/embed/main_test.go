package main

func Example() {
	main()
	// Output:
	// C major
	//   Dm7 IIm7
	//   G7 V7
	//   Cmaj7 Imaj7
	//   Cmaj7 Imaj7
	// Eb major up a minor third
	//   Fm7 IIm7
	//   Bb7 V7
	//   Ebmaj7 Imaj7
	//   Ebmaj7 Imaj7
}
